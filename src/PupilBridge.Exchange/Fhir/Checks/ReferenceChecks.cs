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
            if (entry.Request is not { Method: Bundle.HTTPVerb.POST, IfNoneExist.Length: > 0 })
            {
                yield return FhirWords.Of("Fault.Condition", entry.FullUrl);
            }
            else if (!conditions.Add((entry.Request.Url, entry.Request.IfNoneExist)))
            {
                yield return FhirWords.Of("Fault.Twice", entry.Request.IfNoneExist);
            }
        }
    }
}
