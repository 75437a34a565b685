using Microsoft.Extensions.Configuration;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Configuration;

/// <summary>The settings about what is handed to other systems as FHIR or HL7 v2.</summary>
internal static class FhirOptions
{
    private const string House = "Fhir:House";
    private const string Definitions = "Fhir:Definitions";
    private const string CodeMapFile = "Fhir:CodeMapFile";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            House,
            "the clinic's own address, with which the systems of all identifiers in FHIR records begin; docs/fhir",
            FhirSettings.ExampleHouse,
            "an address that begins with https:// or urn: and does not end with a slash",
            IsAddress
        ),
        new(
            Definitions,
            "the address with which profiles and code systems of FHIR records begin",
            FhirSettings.ExampleDefinitions,
            "an address that begins with https:// or urn: and does not end with a slash",
            IsAddress
        ),
        new(
            CodeMapFile,
            "a file with the codes of LOINC and SNOMED CT that stand beside ours; empty for the built-in map",
            "",
            "empty, or a path to a file as docs/fhir/code-map.json is written",
            value => string.IsNullOrEmpty(value) || IsMap(value)
        ),
    ];

    /// <summary>The settings, by checked values.</summary>
    /// <param name="configuration">The settings.</param>
    public static FhirSettings Read(IConfiguration configuration)
    {
        var settings = new FhirSettings
        {
            House = configuration[House] is { Length: > 0 } house ? house : FhirSettings.ExampleHouse,
            Definitions = configuration[Definitions] is { Length: > 0 } own ? own : FhirSettings.ExampleDefinitions,
        };
        return configuration[CodeMapFile] is { Length: > 0 } file
            ? settings with
            {
                Codes = CodeMap.Read(File.ReadAllText(file)),
            }
            : settings;
    }

    private static bool IsAddress(string? value) =>
        string.IsNullOrEmpty(value)
        || (
            Uri.TryCreate(value, UriKind.Absolute, out var address)
            && address.Scheme is "https" or "urn"
            && !value.EndsWith('/')
        );

    private static bool IsMap(string file)
    {
        try
        {
            CodeMap.Read(File.ReadAllText(file));
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException)
        {
            return false;
        }
    }
}
