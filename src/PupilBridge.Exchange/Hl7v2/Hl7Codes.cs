using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Hl7v2;

/// <summary>Codes as HL7 v2 writes them (tables 0085, 0123 and 0396, from memory).</summary>
internal static class Hl7Codes
{
    /// <summary>The name of our code system in messages.</summary>
    public const string Local = "99PUPIL";

    /// <summary>A concept: the first code of another system, ours as the alternate; ours alone where there is none.</summary>
    public static string Of(CodeableConcept concept)
    {
        var ours = concept.Coding.FirstOrDefault(c => SystemOf(c) == Local);
        var other = concept.Coding.FirstOrDefault(c => SystemOf(c) is "LN" or "SCT");
        return (other, ours) switch
        {
            (null, null) => Hl7Text.Components(null, concept.Text),
            (null, _) => Hl7Text.Components(ours.Code, concept.Text ?? ours.Display, Local),
            (_, null) => Hl7Text.Components(other.Code, concept.Text ?? other.Display, SystemOf(other)),
            _ => Hl7Text.Components(
                other.Code,
                concept.Text ?? other.Display,
                SystemOf(other),
                ours.Code,
                ours.Display ?? concept.Text,
                Local
            ),
        };
    }

    public static string Status(DiagnosticReport.DiagnosticReportStatus? status) =>
        status switch
        {
            DiagnosticReport.DiagnosticReportStatus.Preliminary => "P",
            DiagnosticReport.DiagnosticReportStatus.Amended => "C",
            _ => "F",
        };

    /// <summary>The status of a value.</summary>
    public static string Status(ObservationStatus? status) =>
        status switch
        {
            ObservationStatus.Preliminary => "P",
            ObservationStatus.Amended => "C",
            _ => "F",
        };

    /// <summary>The status where there is no value: N where it was not sought, X where it cannot be obtained.</summary>
    public static string Status(CodeableConcept absent) =>
        absent.Coding.Any(c => c.Code == "not-performed") ? "N" : "X";

    private static string SystemOf(Coding coding) =>
        coding.System switch
        {
            CodeMap.Loinc => "LN",
            CodeMap.Snomed => "SCT",
            { } own when own.Contains("/CodeSystem/pupil-", StringComparison.Ordinal) => Local,
            _ => "",
        };
}
