using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>How a measured duration stands to what the profile asks for, given that a tick is a whole millisecond.</summary>
public enum TimingVerdict
{
    /// <summary>The profile asks for nothing here.</summary>
    NotJudged = 0,

    /// <summary>Surely within the tolerance.</summary>
    Within = 1,

    /// <summary>Surely shorter.</summary>
    TooShort = 2,

    /// <summary>Surely longer.</summary>
    TooLong = 3,

    /// <summary>So near the limit that the tick's own step decides.</summary>
    CannotTell = 4,
}

/// <summary>What became of a stimulus.</summary>
public enum StimulusEnd
{
    /// <summary>The lamp went on and off again.</summary>
    Complete = 1,

    /// <summary>The lamp went off too early for the profile.</summary>
    CutShort = 2,

    /// <summary>When the lamp went off was never learnt.</summary>
    EndLost = 3,

    /// <summary>The other eye's lamp was on at the same time.</summary>
    Overlapped = 4,

    /// <summary>The lamp is still on.</summary>
    Running = 5,
}

/// <summary>One lamp-on interval in one eye. Durations are differences of the instrument's own ticks.</summary>
public sealed record Stimulus
{
    /// <summary>Which eye was lit.</summary>
    public required Eye Eye { get; init; }

    /// <summary>When the lamp went on; its entry names the stimulus.</summary>
    public required Moment On { get; init; }

    /// <summary>When it went off; null if that was never learnt.</summary>
    public required Moment? Off { get; init; }

    /// <summary>The lamp's level, in percent of full output.</summary>
    public required int LevelPercent { get; init; }

    /// <summary>The mode of the dial when the lamp went on; null if not known.</summary>
    public required InstrumentMode? Mode { get; init; }

    /// <summary>The block that it belongs to; none if it belongs to none.</summary>
    public required Block Block { get; init; }

    /// <summary>The unbroken stay in one block that it belongs to: the number of the entry that began the stay; 0 if none.</summary>
    public required long Stay { get; init; }

    /// <summary>Which run of its block it belongs to, from 1; 0 if it belongs to no block.</summary>
    public required int Run { get; init; }

    /// <summary>How long the lamp was on, in ms; null if not known.</summary>
    public required long? DwellMilliseconds { get; init; }

    /// <summary>How the dwell stands to the profile.</summary>
    public required TimingVerdict DwellVerdict { get; init; }

    /// <summary>How long no lamp was on before it, in ms, since the last stimulus of the same stay; null for the first.</summary>
    public required long? GapMilliseconds { get; init; }

    /// <summary>How the gap stands to the profile.</summary>
    public required TimingVerdict GapVerdict { get; init; }

    /// <summary>What became of it.</summary>
    public required StimulusEnd End { get; init; }
}
