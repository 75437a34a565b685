using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>References lead somewhere, nothing stands there twice, and a repeat of a transaction creates nothing anew.</summary>
internal static class ReferenceChecks
{
    public static IEnumerable<string> Of(BundleContent content)
    {
        HashSet<string> urls = [];
        foreach (var entry in content.Bundle.Entry)
        {
            if (!urls.Add(entry.FullUrl ?? ""))
            {
                yield return FhirWords.Of("Fault.Twice", entry.FullUrl);
            }
        }

        foreach (var reference in content.References.Where(r => r.Reference is { } to && !urls.Contains(to)))
        {
            yield return FhirWords.Of("Fault.Reference", reference.Reference);
        }

        if (content.Bundle.Type != Bundle.BundleType.Transaction)
        {
            yield break;
        }

        HashSet<(string?, string)> conditions = [];
        foreach (var entry in content.Bundle.Entry)
        {
            if (ConditionOf(entry.Request) is not { Condition.Length: > 0 } place)
            {
                yield return FhirWords.Of("Fault.Condition", entry.FullUrl);
            }
            else if (!conditions.Add(place))
            {
                yield return FhirWords.Of("Fault.Twice", place.Condition);
            }
        }
    }

    // Where something is put is the search that finds it; the resource is created where the search finds none.
    private static (string? Type, string Condition)? ConditionOf(Bundle.RequestComponent? request) =>
        request switch
        {
            { Method: Bundle.HTTPVerb.POST, IfNoneExist: { } condition } => (request.Url, condition),
            { Method: Bundle.HTTPVerb.PUT, Url: { } url } when url.Split('?', 2) is [var type, var condition] => (
                type,
                condition
            ),
            _ => null,
        };
}
