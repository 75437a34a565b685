using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>Check digits, and the lists of codes and units that may be used.</summary>
internal static class CodeChecks
{
    public static IEnumerable<string> Of(BundleContent content, FhirSettings settings)
    {
        var allowed = new AllowedCodes(settings);
        foreach (var coding in content.Codings)
        {
            if (HasWrongDigit(coding))
            {
                yield return FhirWords.Of("Fault.Digit", coding.System, coding.Code);
            }
            else if (!allowed.IsCode(coding.System, coding.Code))
            {
                yield return FhirWords.Of("Fault.Code", coding.System, coding.Code);
            }
        }

        foreach (var quantity in content.Quantities.Where(q => !AllowedCodes.IsUnit(q.System, q.Code)))
        {
            yield return FhirWords.Of("Fault.Unit", quantity.Code ?? quantity.Unit);
        }
    }

    private static bool HasWrongDigit(Coding coding) =>
        coding.System switch
        {
            CodeMap.Loinc => !CodeDigits.IsLoinc(coding.Code ?? ""),
            CodeMap.Snomed => !CodeDigits.IsSnomed(coding.Code ?? ""),
            _ => false,
        };
}
