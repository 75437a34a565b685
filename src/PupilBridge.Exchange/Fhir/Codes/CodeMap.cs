using System.Collections.Frozen;
using System.Text.Json;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>
/// Which codes of LOINC and SNOMED CT stand beside ours. A clinic may bring its own, for instance without SNOMED CT where it has no
/// licence. Nothing is taken that has a wrong check digit, was not seen in public material, or names one side only.
/// </summary>
public sealed class CodeMap
{
    /// <summary>The system of LOINC.</summary>
    public const string Loinc = "http://loinc.org";

    /// <summary>The system of SNOMED CT.</summary>
    public const string Snomed = "http://snomed.info/sct";

    private static readonly Lazy<CodeMap> Embedded = new(() => Read(FhirDefinitions.Text("code-map.json")));
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    private readonly FrozenDictionary<(string Concept, Eye? Side), MappedCode[]> byConcept;

    private CodeMap(IReadOnlyList<MappedCode> all)
    {
        All = all;
        byConcept = all.GroupBy(code => (code.Concept, code.Side)).ToFrozenDictionary(g => g.Key, g => g.ToArray());
    }

    /// <summary>The map that comes with the program.</summary>
    public static CodeMap Usual => Embedded.Value;

    /// <summary>No codes but ours.</summary>
    public static CodeMap None { get; } = new([]);

    /// <summary>All codes of the map.</summary>
    public IReadOnlyList<MappedCode> All { get; }

    /// <summary>The codes beside one of ours.</summary>
    /// <param name="concept">Our code.</param>
    /// <param name="side">The side it is said of; codes that name the other one are not given.</param>
    public IEnumerable<MappedCode> Of(string concept, Eye? side = null)
    {
        var general = byConcept.GetValueOrDefault((concept, null), []);
        return side is null ? general : byConcept.GetValueOrDefault((concept, side), []).Concat(general);
    }

    /// <summary>Reads a map.</summary>
    /// <param name="json">As docs/fhir/code-map.json is written.</param>
    /// <exception cref="FormatException">It cannot be read, or a code must not be used; the message says which and why.</exception>
    public static CodeMap Read(string json)
    {
        try
        {
            var file = JsonSerializer.Deserialize<MapFile>(json, Json);
            MappedCode[] all = [.. (file?.Codes ?? throw new JsonException("it has no codes")).Select(Checked)];
            var lone = all.FirstOrDefault(code =>
                code.Side is { } side
                && !all.Any(c => (c.Concept, c.Side, c.System) == (code.Concept, side.Fellow(), code.System))
            );
            return lone is null
                ? new CodeMap(all)
                : throw new FormatException(
                    $"The code map has {lone.Code} for '{lone.Concept}' of one side and no code of {lone.System} for the other; add "
                        + "the counterpart, or take it out: half a pair makes sides be mixed up."
                );
        }
        catch (JsonException e)
        {
            throw new FormatException(
                $"The code map cannot be read: {e.Message}; mend it as docs/fhir/README.md says.",
                e
            );
        }
    }

    private static MappedCode Checked(MapEntry entry)
    {
        if (!LocalCodes.IsKnown(entry.Concept))
        {
            throw Refused(entry, $"'{entry.Concept}' is no code of ours");
        }

        if (entry.Tag != "seen" || string.IsNullOrWhiteSpace(entry.Where))
        {
            throw Refused(entry, "it is not tagged 'seen' with where it was seen");
        }

        var isRight = entry.System switch
        {
            Loinc => CodeDigits.IsLoinc(entry.Code),
            Snomed => CodeDigits.IsSnomed(entry.Code),
            _ => throw Refused(entry, $"its system {entry.System} is neither LOINC nor SNOMED CT"),
        };
        return !isRight
            ? throw Refused(entry, "its check digit is wrong")
            : new MappedCode(entry.Concept, SideOf(entry), entry.System, entry.Code, entry.Display, entry.Where);
    }

    private static Eye? SideOf(MapEntry entry) =>
        entry.Side switch
        {
            null => null,
            "right" => Eye.Right,
            "left" => Eye.Left,
            _ => throw Refused(entry, $"its side '{entry.Side}' is neither right nor left"),
        };

    private static FormatException Refused(MapEntry entry, string why) =>
        new($"The code {entry.Code} of the code map cannot be used: {why}. Mend it, or take it out; nothing was sent.");

    private sealed record MapFile(MapEntry[]? Codes);

    private sealed record MapEntry(
        string Concept,
        string? Side,
        string System,
        string Code,
        string Display,
        string Tag,
        string Where
    );
}
