using System.Text.RegularExpressions;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>One row of the table of the simulator's faults in docs/firmware-check.md.</summary>
/// <param name="Fault">The fault's name in the catalogue.</param>
/// <param name="FoundBy">The keys of the checks, one of which must fail; none for a fault that leaves nothing to find.</param>
/// <param name="Sections">The sections of the protocol that they name.</param>
/// <param name="Besides">The keys of further checks that may fail with it, and no other.</param>
internal sealed partial record FaultRow(
    string Fault,
    IReadOnlyList<string> FoundBy,
    IReadOnlyList<string> Sections,
    IReadOnlyList<string> Besides
)
{
    public static IReadOnlyList<FaultRow> All { get; } =
    [
        .. Row()
            .Matches(File.ReadAllText(Document()))
            .Select(m => new FaultRow(
                m.Groups["fault"].Value,
                Keys(m.Groups["found"].Value),
                [.. m.Groups["sections"].Value.Split(", ").Where(s => s != "-")],
                Keys(m.Groups["besides"].Value)
            )),
    ];

    [GeneratedRegex(
        "^\\| fault `(?<fault>[a-z-]+)` \\| (?<found>[^|]+) \\| (?<sections>[^|]+) \\| (?<besides>[^|]+) \\| [^|]+ \\|$",
        RegexOptions.Multiline
    )]
    private static partial Regex Row();

    [GeneratedRegex("`([a-z.-]+)`")]
    private static partial Regex Key();

    private static List<string> Keys(string cell) => [.. Key().Matches(cell).Select(m => m.Groups[1].Value)];

    private static string Document()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
        {
            folder = folder.Parent ?? throw new FileNotFoundException("docs stands beside PupilBridge.sln.");
        }

        return Path.Combine(folder.FullName, "docs", "firmware-check.md");
    }
}
