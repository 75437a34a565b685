using System.Globalization;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Tables;
using PupilBridge.Verbs.Calibration;

namespace PupilBridge.Verbs.Bench.Discs;

/// <summary>
/// The discs of a set, from a plain table with the columns <c>name</c>, <c>diameter_mm</c> and <c>standard_uncertainty_mm</c>.
/// </summary>
internal static class DiscTable
{
    /// <summary>The column of what is written on the disc.</summary>
    public const string Name = "name";

    /// <summary>The column of the certified diameter, in mm.</summary>
    public const string Diameter = "diameter_mm";

    /// <summary>The column of the disc's own standard uncertainty, in mm.</summary>
    public const string Uncertainty = "standard_uncertainty_mm";

    /// <summary>Reads the discs.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="CommandFailure">It cannot be read, a cell is no number, a unit does not fit, or a row stands twice.</exception>
    public static IReadOnlyList<DiscLine> Read(string path) => Of(PlainTableReader.Read(path));

    /// <summary>The discs of a table.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="CommandFailure">A cell is no number, a unit does not fit, or a row stands twice.</exception>
    public static IReadOnlyList<DiscLine> Of(PlainTable table)
    {
        RefuseOtherUnits(table);
        var names = table.PlaceOf(Name);
        var (diameters, uncertainties) = (
            table.Numbers(table.PlaceOf(Diameter)),
            table.Numbers(table.PlaceOf(Uncertainty))
        );
        RefuseTwice(table, names);
        RefuseImpossible(table, names, diameters);
        return [.. table.Rows.Select((row, at) => new DiscLine(row.Cells[names], diameters[at], uncertainties[at]))];
    }

    private static void RefuseOtherUnits(PlainTable table)
    {
        foreach (var heading in table.Headings)
        {
            if (ReadingColumns.UnitOf(heading) is { } unit and not "mm")
            {
                throw new CommandFailure(
                    ExitCode.Refused,
                    $"{table.Path}: column '{heading}' is in {unit}, and discs are entered in mm.",
                    $"Give the columns '{Diameter}' and '{Uncertainty}' in millimetres."
                );
            }
        }
    }

    private static void RefuseTwice(PlainTable table, int names)
    {
        if (
            table.Rows.GroupBy(row => row.Cells[names], StringComparer.Ordinal).FirstOrDefault(g => g.Skip(1).Any()) is
            { } twice
        )
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{table.Path}: lines {string.Join(", ", twice.Select(row => row.Line))} name the same disc, '{twice.Key}'.",
                "Each disc stands once. Take the copy out, or give the discs the names that are written on them."
            );
        }
    }

    private static void RefuseImpossible(PlainTable table, int names, double[] diameters)
    {
        var at = Array.FindIndex(diameters, d => d is not (> 0 and <= DiscSetCheck.WidestMillimetres));
        if (at < 0)
        {
            return;
        }

        var given = diameters[at].ToString(CultureInfo.InvariantCulture);
        throw new CommandFailure(
            ExitCode.Refused,
            $"{table.Path}, line {table.Rows[at].Line}: disc '{table.Rows[at].Cells[names]}' has a diameter of {given} mm"
                + $"{(diameters[at] > DiscSetCheck.WidestMillimetres ? "; is it in µm?" : ".")}",
            $"Diameters are in millimetres, more than 0 and at most {DiscSetCheck.WidestMillimetres}, such as 4.002."
        );
    }
}
