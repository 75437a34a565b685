using System.Text.RegularExpressions;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Calibration;
using PupilBridge.Tables;

namespace PupilBridge.Verbs.Calibration;

/// <summary>Which columns of a table the line is fitted to.</summary>
/// <param name="XName">The heading of x.</param>
/// <param name="YName">The heading of y, or how y was computed.</param>
/// <param name="XIsIndicated">Whether x is an indicated diameter by its heading, and so in mm.</param>
/// <param name="YIsCorrection">Whether y is a correction by its heading, and so in mm.</param>
/// <param name="DiscPlace">The column that names the disc; null where there is none.</param>
/// <param name="Points">The readings.</param>
internal sealed partial record ReadingColumns(
    string XName,
    string YName,
    bool XIsIndicated,
    bool YIsCorrection,
    int? DiscPlace,
    IReadOnlyList<CalibrationPoint> Points
)
{
    /// <summary>Finds the columns.</summary>
    /// <param name="table">The table.</param>
    /// <param name="x">The column that a person named for x; null for the usual one.</param>
    /// <param name="y">The column that a person named for y; null for the usual one.</param>
    /// <returns>The columns with their numbers.</returns>
    /// <exception cref="CommandFailure">A column is missing, or a cell is no number.</exception>
    public static ReadingColumns Of(PlainTable table, string? x, string? y)
    {
        var xPlace = x is null ? Usual(table, "--x", "indicated", "x") : table.PlaceOf(x);
        var (yName, ys) = y is null ? Corrections(table, xPlace) : Column(table, table.PlaceOf(y));
        if (yName == table.Headings[xPlace])
        {
            throw new CommandFailure(
                ExitCode.Usage,
                $"--x and --y name the same column, '{yName}'.",
                "Name two columns."
            );
        }

        var xs = table.Numbers(xPlace);
        var discs = table.Places(heading => Plain(heading) is "disc" or "referencedisc" or "discid" or "discnumber");
        return new(
            table.Headings[xPlace],
            yName,
            Plain(table.Headings[xPlace]).Contains("indicated", StringComparison.Ordinal),
            Plain(yName).Contains("correction", StringComparison.Ordinal) || y is null && Plain(yName) != "y",
            discs.Count == 1 ? discs[0] : null,
            [.. xs.Zip(ys, (at, value) => new CalibrationPoint(at, value))]
        );
    }

    /// <summary>A heading without its unit, capitals and marks: <c>Indicated diameter (mm)</c> is <c>indicateddiameter</c>.</summary>
    private static string Plain(string heading) =>
        string.Concat(Unit().Replace(heading.Trim(), "").Where(char.IsLetterOrDigit).Select(char.ToLowerInvariant));

    private static (string Name, double[] Values) Corrections(PlainTable table, int xPlace)
    {
        var corrections = table.Places(heading => Plain(heading) is "correction" or "y");
        if (corrections.Count == 1)
        {
            return Column(table, corrections[0]);
        }

        var certified = table.Places(heading => Plain(heading) is "certified" or "certifieddiameter");
        if (corrections.Count > 1 || certified.Count != 1)
        {
            throw NoUsual(table, "--y", "correction");
        }

        return (
            $"{table.Headings[certified[0]]} minus {table.Headings[xPlace]}",
            [.. table.Numbers(certified[0]).Zip(table.Numbers(xPlace), (known, shown) => known - shown)]
        );
    }

    private static (string Name, double[] Values) Column(PlainTable table, int place) =>
        (table.Headings[place], table.Numbers(place));

    private static int Usual(PlainTable table, string option, string name, string otherName)
    {
        var found = table.Places(heading =>
            Plain(heading) == name || Plain(heading) == name + "diameter" || Plain(heading) == otherName
        );
        return found.Count == 1 ? found[0] : throw NoUsual(table, option, name);
    }

    private static CommandFailure NoUsual(PlainTable table, string option, string name) =>
        new(
            ExitCode.NotFound,
            $"{table.Path} has not just one column '{name}' to take without being told.",
            $"Name it with {option} COLUMN; the columns are: {table.Named()}."
        );

    [GeneratedRegex(@"[\s_\-]*[\(\[]?\s*(mm|cm|um|µm|μm|nm|inch|inches)\s*[\)\]]?$", RegexOptions.IgnoreCase)]
    private static partial Regex Unit();

    /// <summary>The unit of length that a heading names.</summary>
    /// <param name="heading">The heading.</param>
    /// <returns>The unit; null where it names none.</returns>
    public static string? UnitOf(string heading)
    {
        var unit = NamedUnit().Match(heading.Trim());
        return unit.Success
            ? unit.Groups[1].Value.ToLowerInvariant().Replace('μ', 'µ').Replace("um", "µm", StringComparison.Ordinal)
            : null;
    }

    [GeneratedRegex(@"[\s_\-\(\[](mm|cm|um|µm|μm|nm|inch|inches)\s*[\)\]]?$", RegexOptions.IgnoreCase)]
    private static partial Regex NamedUnit();
}
