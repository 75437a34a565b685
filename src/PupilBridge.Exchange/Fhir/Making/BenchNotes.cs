using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>
/// What the service bench says of the instrument, as notes beside the values that it bears on. Records of formats 1 and 2 did not say, and
/// get none.
/// </summary>
internal static class BenchNotes
{
    /// <summary>Beside a size: the calibration behind it. A size that was corrected otherwise is not said to be uncalibrated.</summary>
    public static IEnumerable<Annotation> Calibration(SignedRecord record, RecordSize size) =>
        record.Calibration is { } told && (told.Number is not null || !size.IsCalibrated)
            ? [Note(FhirWords.Of($"Calibration.{told.Standing}", told.Number, Day(told.Expires)))]
            : [];

    /// <summary>Beside an outcome of the swinging test: the lamps, since unequal ones imitate a defect.</summary>
    public static IEnumerable<Annotation> Lamps(SignedRecord record) =>
        record switch
        {
            { Calibration: null } or { Swinging.State: "not-examined" } => [],
            { Lamps: { } lamps } =>
            [
                Note(
                    FhirWords.Of(
                        $"Lamps.{lamps.Against}",
                        Units(lamps.MilliLogUnits, "+0.00;-0.00;0.00"),
                        Units(lamps.ExpandedMilliLogUnits, "0.00"),
                        lamps.AgeDays
                    )
                ),
            ],
            _ => [Note(FhirWords.Of("Lamps.Never"))],
        };

    private static Annotation Note(string text) => new() { Text = text };

    private static string Day(string? moment) => moment is { Length: >= 10 } ? moment[..10] : "";

    private static string Units(int thousandths, string format) =>
        (thousandths / 1000m).ToString(format, CultureInfo.InvariantCulture);
}
