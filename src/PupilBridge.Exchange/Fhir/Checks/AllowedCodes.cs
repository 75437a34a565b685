using PupilBridge.Exams.Criteria;
using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>The codes and units that may leave the house, and no others.</summary>
internal sealed class AllowedCodes
{
    // shared list of units: UCUM, of which mm, s, lx and the annotation {score} are used.
    private static readonly HashSet<string> Units = ["mm", "s", "lx", "{score}"];

    private static readonly (string System, string Code)[] OfFhir =
    [
        ("http://terminology.hl7.org/CodeSystem/data-absent-reason", "not-performed"),
        ("http://terminology.hl7.org/CodeSystem/data-absent-reason", "not-applicable"),
        ("http://terminology.hl7.org/CodeSystem/data-absent-reason", "unknown"),
        ("http://terminology.hl7.org/CodeSystem/observation-category", "exam"),
        ("urn:iso-astm:E1762-95:2013", "1.2.840.10065.1.12.1.5"),
        ("http://unitsofmeasure.org", "mm"),
    ];

    private readonly HashSet<(string?, string?)> codes;
    private readonly string tags;

    public AllowedCodes(FhirSettings settings)
    {
        tags = settings.Of("signature");
        codes =
        [
            .. OfFhir,
            .. LocalCodes.All.Select(c => (settings.CodeSystem("pupil-exam"), c.Code)),
            .. CriteriaCatalogue.All.Select(c => (settings.CodeSystem("pupil-criteria"), c.Id)),
            .. settings.Codes.All.Select(c => (c.System, c.Code)),
        ];
    }

    public bool IsCode(string? system, string? code) =>
        codes.Contains((system, code)) || (system == tags && !string.IsNullOrEmpty(code));

    public static bool IsUnit(string? system, string? unit) =>
        system == "http://unitsofmeasure.org" && unit is not null && Units.Contains(unit);
}
