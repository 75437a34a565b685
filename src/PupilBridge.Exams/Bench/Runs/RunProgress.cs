using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>
/// How far a bench run is: its readings, each with the step it was taken for, and the steps still to come. It goes through readings and
/// people's words in the order of the journal, so that what a reading was taken for never changes afterwards: a reading that is set aside
/// later puts its step at the end of what is to come and moves no other.
/// </summary>
public sealed record RunProgress
{
    private RunProgress(ValueList<RunReading> readings, ValueList<BenchStep> toCome) =>
        (Readings, ToCome) = (readings, toCome);

    /// <summary>All readings, in the order of the journal.</summary>
    public ValueList<RunReading> Readings { get; }

    /// <summary>The steps still to come, the one asked for now first.</summary>
    public ValueList<BenchStep> ToCome { get; }

    /// <summary>What is asked for now; null when nothing is.</summary>
    public BenchStep? Asked => ToCome.Count > 0 ? ToCome[0] : null;

    /// <summary>The readings that count.</summary>
    public IEnumerable<RunReading> Counting => Readings.Where(reading => reading.State == RunReadingState.Counts);

    /// <summary>Of a run.</summary>
    /// <param name="sitting">The run.</param>
    /// <returns>Its progress.</returns>
    /// <exception cref="ArgumentException">It is an exam of a patient.</exception>
    public static RunProgress Of(Exam sitting)
    {
        ArgumentNullException.ThrowIfNull(sitting);
        var run = sitting.Bench ?? throw new ArgumentException("It is no run on the bench.", nameof(sitting));
        var toCome = new List<BenchStep>(run.Plan);
        var readings = new List<RunReading>();
        var happened = sitting
            .Captures.Select(capture => (capture.CompletedBy, Capture: (Capture?)capture, Mark: (ReadingMark?)null))
            .Concat(
                run.Marks.Select(mark =>
                    (CompletedBy: mark.Sequence, Capture: (Capture?)null, Mark: (ReadingMark?)mark)
                )
            )
            .OrderBy(one => one.CompletedBy);
        foreach (var (_, capture, mark) in happened)
        {
            if (capture is not null)
                readings.Add(Take(capture, toCome));
            else if (mark is not null)
                Say(mark, readings, toCome);
        }

        return new([.. readings], [.. toCome]);
    }

    private static RunReading Take(Capture capture, List<BenchStep> toCome)
    {
        if (toCome.Count == 0)
            return new(capture, null, RunReadingState.NotAsked, null);
        var step = toCome[0];
        if (capture.Eye != step.Eye)
            return new(capture, step, RunReadingState.OtherScale, null);
        if (step.Light is { } light && capture.Light != light)
            return new(capture, step, RunReadingState.OtherLight, null);
        toCome.RemoveAt(0);
        return new(capture, step, RunReadingState.Counts, null);
    }

    private static void Say(ReadingMark mark, List<RunReading> readings, List<BenchStep> toCome)
    {
        var place = readings.FindIndex(reading => reading.Capture.CompletedBy == mark.Reading);
        if (place < 0)
            return;
        var (reading, state) = (readings[place], readings[place].State);
        if (mark.IsSetAside && state == RunReadingState.Counts && reading.Step is { } step)
        {
            state = RunReadingState.SetAside;
            toCome.Add(step);
        }
        else if (!mark.IsSetAside && state == RunReadingState.SetAside && reading.Step is { } again)
        {
            state = RunReadingState.Counts;
            // Measured again already: then both count.
            if (toCome.LastIndexOf(again) is var last and >= 0)
                toCome.RemoveAt(last);
        }

        readings[place] = reading with { State = state, Mark = mark };
    }
}
