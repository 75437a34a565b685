using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>From two edges of one eye to a capture, or to the reason why they are none.</summary>
internal static class CaptureMaking
{
    /// <summary>Why sizes cannot be taken just now; null if they can.</summary>
    public static PairRefusalReason? WhyNotNow(LaneState lane)
    {
        if (lane.Identity is null)
            return PairRefusalReason.ScaleUnknown;
        if (lane.Lamps.Right is not null || lane.Lamps.Left is not null)
            return PairRefusalReason.LampOn;
        return lane.Dial?.Mode is InstrumentMode.Sequence or InstrumentMode.Hold
            ? PairRefusalReason.NotMeasuring
            : null;
    }

    /// <summary>Why a difference is no pupil; null if it can be one.</summary>
    public static PairRefusalReason? WhyNoPupil(Micrometres difference, CaptureRules rules)
    {
        if (difference.Value < 0)
            return PairRefusalReason.WrongSign;
        if (difference < rules.SmallestDiameter)
            return PairRefusalReason.TooSmall;
        return difference > rules.LargestDiameter ? PairRefusalReason.TooLarge : null;
    }

    /// <summary>Adds what two edges make to an exam: a capture, or a refused pair.</summary>
    public static Exam With(
        Exam exam,
        LaneState lane,
        Eye eye,
        CaptureManner manner,
        EdgeReading nasal,
        EdgeReading temporal,
        JournalSequence by
    )
    {
        var scale = lane.Identity!.Scales[eye];
        var raw = new EdgePair(nasal.Position, temporal.Position, scale.Direction).Difference;
        if (WhyNoPupil(raw, exam.Profile.Captures) is { } reason)
            return exam.WithRefused(new(eye, reason, nasal, temporal, by));
        var when = temporal.When.Sequence >= nasal.When.Sequence ? temporal.When : nasal.When;
        // What was said only afterwards (events that arrive late) does not tell what held then.
        var light = lane.Light is { } l && l.When.Earliest <= when.Latest ? l : null;
        var fixation = lane.Fixation is { } f && f.When.Earliest <= when.Latest ? f : null;
        var isDim = light?.Light == RoomLight.Dim;
        return exam with
        {
            Captures = exam.Captures.Add(
                new()
                {
                    Eye = eye,
                    Manner = manner,
                    Nasal = nasal,
                    Temporal = temporal,
                    Raw = raw,
                    Resolution = scale.Resolution,
                    When = when,
                    CompletedBy = by,
                    Light = light?.Light,
                    LightEntry = light?.Entry,
                    Millilux = light is null ? null : lane.Millilux,
                    Fixation = fixation?.Fixation,
                    FixationEntry = fixation?.Entry,
                    DarkMilliseconds =
                        isDim && lane.DarkSince is { } since ? Math.Max(0, when.MillisecondsSince(since)) : null,
                }
            ),
        };
    }
}
