using PupilBridge.Worker.Live;

namespace PupilBridge.Worker;

/// <summary>How the bridge is, at one moment. Read it as often as wanted; reading costs next to nothing.</summary>
public sealed record BridgeHealth
{
    /// <summary>Why nothing can be recorded just now, for a person; null when all is well.</summary>
    public required string? JournalTrouble { get; init; }

    /// <summary>The last journal entry that is on disk.</summary>
    public required long Durable { get; init; }

    /// <summary>How many entries wait for the disk.</summary>
    public required int Waiting { get; init; }

    /// <summary>The last journal entry that live exams and screens have.</summary>
    public required long Applied { get; init; }

    /// <summary>The last journal entry that the exam log holds; 0 while it is being made anew.</summary>
    public required long InExamLog { get; init; }

    /// <summary>Why the exam log cannot be used just now, for a person; null when all is well.</summary>
    public required string? ExamLogTrouble { get; init; }

    /// <summary>How many journal entries could not be read; the journal keeps them as they are.</summary>
    public required long UnreadableEntries { get; init; }

    /// <summary>How many viewers were dropped since the start because they fell behind.</summary>
    public required long DroppedViewers { get; init; }

    /// <summary>The ports, by name.</summary>
    public required IReadOnlyList<PortStatus> Ports { get; init; }

    /// <summary>How many entries the exam log is behind the journal; it catches up at the end of each step.</summary>
    public long ExamLogLag => Math.Max(0, Durable - InExamLog);

    /// <summary>Whether readings can be recorded. (A port that is not there is no illness of the bridge.)</summary>
    public bool CanRecord => JournalTrouble is null;
}
