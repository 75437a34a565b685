using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir;

namespace PupilBridge.Exchange.Tests.Fhir.Support;

/// <summary>Finds things in a bundle by their identifiers.</summary>
internal static class BundleReading
{
    public static FhirSettings Settings { get; } = new();

    public static Bundle Document(this Clinic.Outgoing.OutgoingRecord outgoing) =>
        FhirBundles.Document(outgoing, Settings);

    public static T One<T>(this Bundle bundle)
        where T : Resource => Assert.Single(bundle.Entry.Select(e => e.Resource).OfType<T>());

    public static IEnumerable<Observation> Observations(this Bundle bundle) =>
        bundle.Entry.Select(e => e.Resource).OfType<Observation>();

    /// <summary>The observation whose identifier ends so, behind the exam.</summary>
    public static Observation Observation(this Bundle bundle, string key) =>
        Assert.Single(bundle.Observations(), o => KeyOf(o) == key);

    public static string KeyOf(Observation observation) => observation.Identifier[0].Value!.Split('/', 2)[1];

    public static string? Ours(this CodeableConcept? concept) =>
        concept?.Coding.FirstOrDefault(c => c.System == Settings.CodeSystem("pupil-exam"))?.Code;

    public static string? Code(this CodeableConcept? concept, string system) =>
        concept?.Coding.FirstOrDefault(c => c.System == system)?.Code;

    public static DataType? Fact(this Observation observation, string code) =>
        observation.Component.SingleOrDefault(c => c.Code!.Ours() == code)?.Value;

    public static decimal? Millimetres(DataType? value)
    {
        var quantity = Assert.IsType<Quantity>(value);
        Assert.Equal(("http://unitsofmeasure.org", "mm"), (quantity.System, quantity.Code));
        return quantity.Value;
    }
}
