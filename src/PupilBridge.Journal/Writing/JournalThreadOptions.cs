namespace PupilBridge.Journal;

/// <summary>Limits of a <see cref="JournalThread"/>.</summary>
public sealed record JournalThreadOptions
{
    /// <summary>How many entries one source may have waiting; a further one waits until earlier ones are durable.</summary>
    /// <value>The default is 1,024: twice what an instrument must keep, so that a whole backlog goes in one sync.</value>
    public int SharePerSource { get; init; } = 1024;

    /// <summary>How many payload bytes one source may have waiting; a single entry is always let in.</summary>
    /// <value>The default is 1 MiB.</value>
    public int ShareBytesPerSource { get; init; } = 1 << 20;

    /// <summary>The wait before the first retry of a failed commit; it doubles up to <see cref="LongestBackOff"/>.</summary>
    /// <value>The default is 50 ms.</value>
    public TimeSpan FirstBackOff { get; init; } = TimeSpan.FromMilliseconds(50);

    /// <summary>The longest wait between retries.</summary>
    /// <value>The default is 5 s: soon enough for a person who has just freed some space.</value>
    public TimeSpan LongestBackOff { get; init; } = TimeSpan.FromSeconds(5);
}
