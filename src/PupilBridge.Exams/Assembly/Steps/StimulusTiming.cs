using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>Stimuli and their timing against the profile, from the instrument's own ticks and from nothing else.</summary>
internal static class StimulusTiming
{
    /// <summary>The number of the unbroken stay in one block; 0 where there is no block.</summary>
    public static long StayOf(DialMove? dial) => dial is { Block: not Block.None } ? dial.When.Sequence.Value : 0;

    public static Stimulus Begin(Exam exam, LaneState lane, Happening happening)
    {
        var block = lane.Dial?.Block ?? Block.None;
        var stay = StayOf(lane.Dial);
        var eye = happening.Event.Eye;
        var gap = GapBefore(lane.LastOff, stay, happening.When);
        return new()
        {
            Eye = eye,
            On = happening.When,
            Off = null,
            LevelPercent = happening.Event.LampLevelPercent,
            Mode = lane.Dial?.Mode,
            Block = block,
            Stay = stay,
            Run = block == Block.None ? 0 : BlockRuns.NextRun(exam, block, stay),
            DwellMilliseconds = null,
            DwellVerdict = TimingVerdict.NotJudged,
            GapMilliseconds = gap,
            GapVerdict = JudgeGap(exam.Profile, block, gap, isSameEye: lane.LastOff?.Eye == eye),
            End = StimulusEnd.Running,
        };
    }

    public static Exam End(Exam exam, JournalSequence on, Moment off) =>
        Change(
            exam,
            on,
            stimulus =>
            {
                // Ticks of one boot only: a duration out of two clocks would be a guess.
                var dwell = TickDifference(stimulus.On, off);
                var verdict = JudgeDwell(exam.Profile, stimulus.Block, dwell);
                var end = verdict == TimingVerdict.TooShort ? StimulusEnd.CutShort : StimulusEnd.Complete;
                if (dwell is null)
                    end = StimulusEnd.EndLost;
                return stimulus with
                {
                    Off = off,
                    DwellMilliseconds = dwell,
                    DwellVerdict = verdict,
                    End = stimulus.End == StimulusEnd.Overlapped ? StimulusEnd.Overlapped : end,
                };
            }
        );

    public static Exam Lose(Exam exam, JournalSequence on) =>
        Change(exam, on, stimulus => stimulus with { End = StimulusEnd.EndLost });

    public static Exam Overlap(Exam exam, JournalSequence on) =>
        Change(exam, on, stimulus => stimulus with { End = StimulusEnd.Overlapped });

    /// <summary>
    /// How a duration stands to a range, if each of its two ticks may be off by half a millisecond: the duration lies within
    /// one millisecond of the number.
    /// </summary>
    public static TimingVerdict Judge(long milliseconds, double least, double most)
    {
        if (milliseconds + 1 < least)
            return TimingVerdict.TooShort;
        if (milliseconds - 1 > most)
            return TimingVerdict.TooLong;
        var isSurelyWithin = milliseconds - 1 >= least && milliseconds + 1 <= most;
        return isSurelyWithin ? TimingVerdict.Within : TimingVerdict.CannotTell;
    }

    private static TimingVerdict JudgeDwell(Profile profile, Block block, long? dwell)
    {
        var nominal = block switch
        {
            Block.Direct => profile.Direct.DwellMilliseconds,
            Block.SwingShort => profile.SwingShort.DwellMilliseconds,
            Block.SwingLong => profile.SwingLong.DwellMilliseconds,
            _ => 0,
        };
        return dwell is null || nominal <= 0 ? TimingVerdict.NotJudged : Around(dwell.Value, nominal, profile);
    }

    private static TimingVerdict JudgeGap(Profile profile, Block block, long? gap, bool isSameEye)
    {
        if (gap is not { } milliseconds)
            return TimingVerdict.NotJudged;
        return block switch
        {
            // From one eye to the other the examiner may take what time it takes.
            Block.Direct when isSameEye => Around(milliseconds, profile.Direct.GapMilliseconds, profile),
            Block.SwingShort => Judge(milliseconds, double.MinValue, profile.SwingShort.MaxGapMilliseconds),
            Block.SwingLong => Judge(milliseconds, double.MinValue, profile.SwingLong.MaxGapMilliseconds),
            _ => TimingVerdict.NotJudged,
        };
    }

    private static TimingVerdict Around(long milliseconds, int nominal, Profile profile)
    {
        var slack = nominal * (profile.DwellTolerancePercent / 100.0);
        return Judge(milliseconds, nominal - slack, nominal + slack);
    }

    private static long? GapBefore(LampOff? last, long stay, Moment on) =>
        last is { } off && off.Stay == stay && stay != 0 ? TickDifference(off.When, on) : null;

    private static long? TickDifference(Moment earlier, Moment later) =>
        earlier.Boot == later.Boot && earlier.Tick is not null && later.Tick is not null && later.Tick >= earlier.Tick
            ? later.MillisecondsSince(earlier)
            : null;

    private static Exam Change(Exam exam, JournalSequence on, Func<Stimulus, Stimulus> change)
    {
        for (var i = exam.Stimuli.Count - 1; i >= 0; i--)
        {
            if (exam.Stimuli[i].On.Sequence == on)
                return exam with { Stimuli = exam.Stimuli.SetItem(i, change(exam.Stimuli[i])) };
        }

        return exam;
    }
}
