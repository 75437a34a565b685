using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>How a reading of a bench run stands.</summary>
public enum RunReadingState
{
    /// <summary>It counts for the step that was asked for.</summary>
    Counts = 1,

    /// <summary>A person set it aside, with a reason; its step is asked for again.</summary>
    SetAside = 2,

    /// <summary>It came by the other scale than the one asked for; it is kept and counts for nothing.</summary>
    OtherScale = 3,

    /// <summary>It came when nothing was asked for any more.</summary>
    NotAsked = 4,

    /// <summary>It came in another room light than the one asked for, or nobody said which.</summary>
    OtherLight = 5,
}

/// <summary>One reading of a bench run, with what it was taken for.</summary>
/// <param name="Capture">The reading as the sitting has it.</param>
/// <param name="Step">What was asked for when it came; null when nothing was.</param>
/// <param name="State">How it stands.</param>
/// <param name="Mark">What a person said of it last; null if nobody said anything.</param>
public sealed record RunReading(Capture Capture, BenchStep? Step, RunReadingState State, ReadingMark? Mark)
{
    /// <summary>The difference of the two positions, in mm.</summary>
    public double IndicatedMillimetres => Capture.Raw.Millimetres;
}
