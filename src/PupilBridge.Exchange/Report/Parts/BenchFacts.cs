using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>What the service bench says of the instrument behind an exam. Of the lamps the chart line says it, beside the swinging test.</summary>
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

    /// <summary>The day of a moment in UTC, as records write moments.</summary>
    private static string Day(string? moment) =>
        moment is { Length: >= 10 } ? moment[..10] : ReportWords.Text["Unknown"];
}
