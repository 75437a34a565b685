using System.Globalization;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>What the service bench says of the instrument behind an exam: its calibration and its lamps.</summary>
internal static class BenchFacts
{
    /// <summary>The calibration in words.</summary>
    public static string Calibration(SignedRecord record)
    {
        var text = ReportWords.Text;
        if (record.Sizes.Count == 0)
            return text["Calibration.NoSizes"];
        if (record.Sizes.Any(size => !size.IsCalibrated))
            return text[record.Sizes.Any(size => size.IsCalibrated) ? "Calibration.Some" : "Calibration.None"];
        return record.Calibration is { Number: { } number } told
            ? text.Get(
                $"Standing.{told.Standing}",
                number,
                Day(told.Effective),
                told.Expires is { } end ? Day(end) : text["Standing.NoEnd"]
            )
            // Formats 1 and 2 did not say which.
            : text["Calibration.All"];
    }

    /// <summary>The lamps; none where the swinging test was not examined, and in older formats, which did not say.</summary>
    public static IEnumerable<ReportFact> Lamps(SignedRecord record)
    {
        if (record.Calibration is null || record.Swinging.State == "not-examined")
            yield break;
        var text = ReportWords.Text;
        yield return new(
            text["Lamps"],
            record.Lamps is { } lamps
                ? text.Get(
                    $"Lamps.{lamps.Against}",
                    Units(lamps.MilliLogUnits, "+0.00;-0.00;0.00"),
                    Units(lamps.ExpandedMilliLogUnits, "0.00"),
                    lamps.AgeDays
                )
                : text["Lamps.Never"]
        );
    }

    /// <summary>The day of a moment in UTC, as records write moments.</summary>
    private static string Day(string? moment) =>
        moment is { Length: >= 10 } ? moment[..10] : ReportWords.Text["Unknown"];

    private static string Units(int thousandths, string format) =>
        (thousandths / 1000m).ToString(format, CultureInfo.InvariantCulture);
}
