using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>All that stands in a bundle, gathered in one walk.</summary>
internal sealed class BundleContent
{
    private BundleContent(Bundle bundle) => Bundle = bundle;

    public Bundle Bundle { get; }

    public List<Coding> Codings { get; } = [];

    public List<Quantity> Quantities { get; } = [];

    public List<ResourceReference> References { get; } = [];

    /// <summary>What the record says; not what an amendment marks as never having been so.</summary>
    public IEnumerable<Observation> Observations =>
        Resources<Observation>().Where(o => o.Status != ObservationStatus.EnteredInError);

    public IEnumerable<T> Resources<T>()
        where T : Resource => Bundle.Entry.Select(e => e.Resource).OfType<T>();

    public static BundleContent Of(Bundle bundle)
    {
        var content = new BundleContent(bundle);
        foreach (var resource in bundle.Entry.Select(e => e.Resource).OfType<Resource>())
        {
            content.Walk(resource);
        }

        return content;
    }

    /// <summary>The value of an observation's identifier; empty if it has none.</summary>
    public static string KeyOf(Observation observation) => observation.Identifier.FirstOrDefault()?.Value ?? "";

    private void Walk(object value)
    {
        switch (value)
        {
            case Coding coding:
                Codings.Add(coding);
                break;
            case Quantity quantity:
                Quantities.Add(quantity);
                break;
            case ResourceReference reference:
                References.Add(reference);
                Inner(reference);
                break;
            case PrimitiveType:
                break;
            case Base element:
                Inner(element);
                break;
            case System.Collections.IEnumerable list and not string:
                foreach (var item in list)
                {
                    Walk(item);
                }

                break;
            default:
                break;
        }
    }

    private void Inner(Base element)
    {
        foreach (var (_, inner) in element.EnumerateElements())
        {
            Walk(inner);
        }
    }
}
