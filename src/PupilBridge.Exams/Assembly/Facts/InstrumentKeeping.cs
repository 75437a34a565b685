using System.Text.Json.Serialization;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>A calibration that was issued for an instrument.</summary>
/// <param name="Number">Its certificate's number.</param>
/// <param name="Sequence">The entry that issued it.</param>
/// <param name="Run">The bench run behind it.</param>
/// <param name="Effective">From when on it corrects diameters.</param>
/// <param name="Expires">From when on it counts as expired; null where it does not expire.</param>
/// <param name="Scales">The scales.</param>
public sealed record IssuedCalibration(
    long Number,
    JournalSequence Sequence,
    ExamId Run,
    UtcTime Effective,
    UtcTime? Expires,
    PerEye<CalibratedScale> Scales
)
{
    /// <summary>The corrections of both scales.</summary>
    [JsonIgnore]
    public PerEye<ICorrection> Corrections =>
        Scales.Select((eye, scale) => (ICorrection)new CertifiedCorrection(Number, eye, scale.Line));
}

/// <summary>The last measurement of an instrument's two lamps.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="At">When.</param>
/// <param name="Who">By whom.</param>
/// <param name="Source">Where the readings came from.</param>
/// <param name="Balance">The balance; null where the readings could not give one.</param>
public sealed record LampBalanceRecord(
    JournalSequence Sequence,
    UtcTime At,
    PersonId Who,
    LampReadingSource Source,
    LampBalance? Balance
)
{
    private const long MillisecondsOfDay = 24L * 60 * 60 * 1000;

    /// <summary>How old it is.</summary>
    /// <param name="at">When.</param>
    /// <returns>Whole days; 0 for a moment before it was measured.</returns>
    public int AgeDays(UtcTime at) => (int)Math.Max(0, at.MillisecondsSince(At) / MillisecondsOfDay);
}

/// <summary>What the instrument's own meter read before one of its lamps.</summary>
/// <param name="Eye">Which lamp: that of this eye.</param>
/// <param name="Millilux">The reading, in millilux.</param>
/// <param name="When">When.</param>
public readonly record struct LampOutputReading(Eye Eye, long Millilux, Moment When);

/// <summary>The repeatability on living people that counts for an instrument.</summary>
/// <param name="Sequence">The entry that adopted it.</param>
/// <param name="At">From when on it counts.</param>
/// <param name="Run">The bench run that found it.</param>
/// <param name="WithinMillimetres">The standard deviation of settings of one pupil, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom behind it.</param>
public sealed record AdoptedRepeatability(
    JournalSequence Sequence,
    UtcTime At,
    ExamId Run,
    double WithinMillimetres,
    int DegreesOfFreedom
);

/// <summary>Where a scale came to rest at home, in one sitting: its drift shows in ordinary exams.</summary>
/// <param name="Count">How often.</param>
/// <param name="SumMicrometres">The sum of its positions relative to the declared home, in µm.</param>
/// <param name="Least">The smallest of them, in µm.</param>
/// <param name="Most">The largest, in µm.</param>
public readonly record struct HomeRests(int Count, long SumMicrometres, int Least, int Most)
{
    /// <summary>Farther from home than this is no rest at home but a reading, in µm. Ours.</summary>
    public const int WithinMicrometres = 300;

    /// <summary>The mean, in µm.</summary>
    public double MeanMicrometres => Count == 0 ? 0 : (double)SumMicrometres / Count;

    /// <summary>With one more rest.</summary>
    /// <param name="offMicrometres">How far from the declared home, in µm.</param>
    public HomeRests With(int offMicrometres) =>
        Count == 0
            ? new(1, offMicrometres, offMicrometres, offMicrometres)
            : new(
                Count + 1,
                SumMicrometres + offMicrometres,
                Math.Min(Least, offMicrometres),
                Math.Max(Most, offMicrometres)
            );
}
