namespace PupilBridge.Exams.Bench.Runs;

/// <summary>What an instrument is put on the bench for.</summary>
public enum BenchRunKind
{
    /// <summary>Both scales against a set of reference discs.</summary>
    Calibration = 1,

    /// <summary>Both scales against one disc, in a minute.</summary>
    QuickCheck = 2,

    /// <summary>The timing of stimuli.</summary>
    StimulusTiming = 3,

    /// <summary>How well the edges of a living pupil are set again.</summary>
    LiveRepeatability = 4,
}
