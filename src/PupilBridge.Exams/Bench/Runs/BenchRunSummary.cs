using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>A bench run in one line, for lists and drift charts.</summary>
/// <param name="Run">Its number.</param>
/// <param name="Serial">The instrument.</param>
/// <param name="Kind">What it was for.</param>
/// <param name="Begun">When it began.</param>
/// <param name="Technician">By whom.</param>
/// <param name="IsOpen">Whether it still takes readings.</param>
/// <param name="IsFinished">Whether a person finished it.</param>
/// <param name="Certificate">The number of its certificate; null if it has none.</param>
/// <param name="OffsetMillimetres">
/// The error of each scale before correction at the middle of the range, in mm (by a calibration's line), or at the disc of a quick check;
/// null where there is none.
/// </param>
/// <param name="Slope">The slope of each scale's error, in mm per mm; null but for a calibration.</param>
public sealed record BenchRunSummary(
    ExamId Run,
    SerialNumber Serial,
    BenchRunKind Kind,
    UtcTime Begun,
    PersonId Technician,
    bool IsOpen,
    bool IsFinished,
    long? Certificate,
    PerEye<double?> OffsetMillimetres,
    PerEye<double?> Slope
)
{
    /// <summary>
    /// The middle of the range of pupils, in mm, where offsets are compared over the years: discs of two sets need not be alike. Ours.
    /// </summary>
    public const double MiddleMillimetres = 5;

    private static readonly PerEye<double?> Nothing = new() { Right = null, Left = null };

    /// <summary>Of a run.</summary>
    /// <param name="sitting">The run.</param>
    /// <returns>Its line.</returns>
    /// <exception cref="ArgumentException">It is an exam of a patient.</exception>
    public static BenchRunSummary Of(Exam sitting)
    {
        ArgumentNullException.ThrowIfNull(sitting);
        var run = sitting.Bench ?? throw new ArgumentException("It is no run on the bench.", nameof(sitting));
        var isFinished = run.Ending is { IsFinished: true };
        var (offset, slope) = (isFinished, run.Kind) switch
        {
            (true, BenchRunKind.Calibration) => OfCalibration(sitting),
            (true, BenchRunKind.QuickCheck) => (
                QuickCheckOutcome.Of(sitting).Select((_, scale) => scale.ErrorMillimetres),
                Nothing
            ),
            _ => (Nothing, Nothing),
        };
        return new(
            sitting.Id,
            sitting.Serial,
            run.Kind,
            sitting.Opening.When.At,
            run.Technician,
            sitting.TakesEvents,
            isFinished,
            run.Certificate,
            offset,
            slope
        );
    }

    private static (PerEye<double?> Offset, PerEye<double?> Slope) OfCalibration(Exam sitting)
    {
        var lines = CalibrationOutcome.Of(sitting).Select((_, scale) => scale.Fit?.Correction);
        return (
            // The correction is what has to be added; the error is its opposite.
            lines.Select((_, line) => -line?.Predict(MiddleMillimetres).Y),
            lines.Select((_, line) => -line?.Slope)
        );
    }
}
