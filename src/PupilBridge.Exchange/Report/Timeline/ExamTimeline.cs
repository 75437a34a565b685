using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Report.Timeline;

/// <summary>What the plot of an exam over time shows. All times are milliseconds after the exam opened.</summary>
public sealed record ExamTimeline
{
    /// <summary>The stimuli, by eye and run.</summary>
    public required IReadOnlyList<TimelineTrain> Trains { get; init; }

    /// <summary>The captures.</summary>
    public required IReadOnlyList<TimelineCapture> Captures { get; init; }

    /// <summary>Whether there is nothing to show.</summary>
    public bool IsEmpty => Trains.Count == 0 && Captures.Count == 0;

    /// <summary>Reads it from a record.</summary>
    /// <param name="record">The record.</param>
    public static ExamTimeline Of(SignedRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var opened = ReportWords.Read(record.Opened.At);
        return new()
        {
            Trains =
            [
                .. record.Trains.Select(train => new TimelineTrain(
                    train.Eye,
                    train.Block,
                    train.Run,
                    [.. train.OnMilliseconds.Zip(train.ForMilliseconds, (on, length) => new TimelineBar(on, length))]
                )),
            ],
            Captures =
            [
                .. record.Sizes.Select(size => new TimelineCapture(
                    size.Eye,
                    (long)(Later(size) - opened).TotalMilliseconds,
                    size.Light,
                    size.Counts,
                    size.DiameterMicrometres
                )),
            ],
        };
    }

    /// <summary>A capture counts from its later edge.</summary>
    private static DateTimeOffset Later(RecordSize size)
    {
        var (nasal, temporal) = (ReportWords.Read(size.Nasal.At), ReportWords.Read(size.Temporal.At));
        return nasal > temporal ? nasal : temporal;
    }
}

/// <summary>The stimuli of one eye in one run.</summary>
/// <param name="Eye">The eye that was lit: <c>right</c> or <c>left</c>.</param>
/// <param name="Block">The block in a word; null for lamps that belong to none.</param>
/// <param name="Run">Which run, from 1.</param>
/// <param name="Bars">The stimuli.</param>
public sealed record TimelineTrain(string Eye, string? Block, int Run, IReadOnlyList<TimelineBar> Bars);

/// <summary>One stimulus.</summary>
/// <param name="OnMilliseconds">When the lamp went on.</param>
/// <param name="ForMilliseconds">How long it was on; null where that was never learnt.</param>
public readonly record struct TimelineBar(long OnMilliseconds, long? ForMilliseconds);

/// <summary>One capture.</summary>
/// <param name="Eye">The eye: <c>right</c> or <c>left</c>.</param>
/// <param name="AtMilliseconds">When.</param>
/// <param name="Light"><c>bright</c> or <c>dim</c>; null if it was not said.</param>
/// <param name="Counts">Whether no later one goes before it.</param>
/// <param name="DiameterMicrometres">The diameter.</param>
public sealed record TimelineCapture(
    string Eye,
    long AtMilliseconds,
    string? Light,
    bool Counts,
    int DiameterMicrometres
);
