using PupilBridge.Keys;

namespace PupilBridge.ExamLog;

/// <summary>How the exam log is kept; the defaults are meant for every clinic.</summary>
public sealed record ExamLogOptions
{
    /// <summary>
    /// The size of the engine's log in bytes from which <see cref="ExamLogStore.Apply"/> moves it into the data file. The default
    /// of 32 MiB keeps the time of one checkpoint well below a second and the restart after a killed process short.
    /// </summary>
    public long CheckpointBytes { get; init; } = 32L * 1024 * 1024;

    /// <summary>
    /// What names the present run of the operating system; null asks the system itself. A store that was left open under
    /// another run is taken as hit by a power loss.
    /// </summary>
    public string? SystemRun { get; init; }

    /// <summary>The master keys with which an encrypted exam log is opened; null where there are none.</summary>
    public KeyRing? Keys { get; init; }

    /// <summary>Whether an exam log that is made is encrypted, and one that is not encrypted is refused, so that it is made anew.</summary>
    public bool Encrypt { get; init; }

    /// <summary>Where the time of day comes from, for the names of files that are moved aside.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;
}
