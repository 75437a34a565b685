using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Calibration;
using PupilBridge.Tables;

namespace PupilBridge.Verbs.Calibration;

/// <summary>What is looked at before a line is drawn: slips that give a fine line and a wrong scale.</summary>
internal static class ReadingChecks
{
    /// <summary>No pupil tester shows a diameter beyond this, in mm; the same number in µm is an ordinary pupil.</summary>
    private const double LargestDiameter = 100;

    /// <summary>No reference disc is smaller than this, in mm; in cm or inches a disc is.</summary>
    private const double SmallestDiameter = 1;

    /// <summary>A correction beyond this share of the diameter is in another unit, or is no correction.</summary>
    private const double LargestShare = 0.5;

    /// <summary>Refuses columns whose headings or sizes tell of another unit than mm.</summary>
    /// <param name="table">The table.</param>
    /// <param name="columns">The columns in use.</param>
    /// <exception cref="CommandFailure">The units do not fit.</exception>
    public static void RefuseWrongUnits(PlainTable table, ReadingColumns columns)
    {
        var (unitOfX, unitOfY) = (ReadingColumns.UnitOf(columns.XName), ReadingColumns.UnitOf(columns.YName));
        if (unitOfX is not null && unitOfY is not null && unitOfX != unitOfY)
        {
            throw Units(table, $"'{columns.XName}' is in {unitOfX} and '{columns.YName}' in {unitOfY}");
        }

        foreach (var (name, unit, isOurs) in Named(columns, unitOfX, unitOfY))
        {
            if (isOurs && unit is not null and not "mm")
            {
                throw Units(table, $"'{name}' is in {unit}, and diameters and corrections are in mm");
            }
        }

        if (columns.XIsIndicated)
        {
            RefuseSizes(table, columns);
        }
    }

    /// <summary>Refuses a table with the same row twice, unless a person said that they are two readings.</summary>
    /// <param name="table">The table.</param>
    /// <param name="areMeant">Whether a person said so.</param>
    /// <exception cref="CommandFailure">Two rows are alike in every column.</exception>
    public static void RefuseAlikeRows(PlainTable table, bool areMeant)
    {
        var alike = table
            .Rows.GroupBy(row => string.Join('\u001f', row.Cells), StringComparer.Ordinal)
            .Where(group => group.Skip(1).Any())
            .ToList();
        if (alike.Count == 0 || areMeant)
        {
            return;
        }

        var lines = string.Join(", ", alike[0].Select(row => row.Line));
        var more = alike.Count > 1 ? $", and {alike.Count - 1} more such rows" : "";
        throw new CommandFailure(
            ExitCode.Refused,
            $"{table.Path}: lines {lines} are alike in every column{more}. A row that stands twice makes the uncertainty too small.",
            "Take the copy out. If they are readings of their own that came out alike, say so with --accept-alike, or add a "
                + "column that numbers the readings."
        );
    }

    /// <summary>Refuses fewer than three discs where a column names them.</summary>
    /// <param name="table">The table.</param>
    /// <param name="columns">The columns in use.</param>
    /// <exception cref="CommandFailure">There are one or two discs.</exception>
    public static void RefuseFewDiscs(PlainTable table, ReadingColumns columns)
    {
        if (columns.DiscPlace is not { } place)
        {
            return;
        }

        var discs = table.Rows.Select(row => row.Cells[place]).Distinct(StringComparer.Ordinal).Count();
        if (discs < CalibrationReadings.Fewest)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"{table.Path}: column '{table.Headings[place]}' names {discs} {(discs == 1 ? "disc" : "discs")} only. A line "
                    + "meets any two discs, so nothing would show that the scale is not straight.",
                "Add readings of a third disc, better of five or more."
            );
        }
    }

    private static IEnumerable<(string Name, string? Unit, bool IsOurs)> Named(
        ReadingColumns columns,
        string? unitOfX,
        string? unitOfY
    ) => [(columns.XName, unitOfX, columns.XIsIndicated), (columns.YName, unitOfY, columns.YIsCorrection)];

    private static void RefuseSizes(PlainTable table, ReadingColumns columns)
    {
        var largest = columns.Points.MaxBy(point => Math.Abs(point.X)).X;
        if (Math.Abs(largest) > LargestDiameter)
        {
            throw Units(table, $"'{columns.XName}' holds {Number(largest)}, which is no diameter in mm; is it in µm?");
        }

        if (Math.Abs(largest) < SmallestDiameter)
        {
            throw Units(
                table,
                $"'{columns.XName}' holds nothing of 1 mm or more (at most {Number(largest)}); is it in cm or inches?"
            );
        }

        var odd = columns.Points.Where(point => Math.Abs(point.Y) > LargestShare * Math.Abs(largest)).ToList();
        if (columns.YIsCorrection && odd.Count > 0)
        {
            throw Units(
                table,
                $"'{columns.YName}' holds {Number(odd[0].Y)}, more than half the largest diameter; is it in µm, or the "
                    + "certified diameter itself?"
            );
        }
    }

    private static CommandFailure Units(PlainTable table, string what) =>
        new(
            ExitCode.Refused,
            $"{table.Path}: {what}.",
            "Give diameters and corrections in mm. For other data name the columns otherwise, and both in one unit."
        );

    private static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
