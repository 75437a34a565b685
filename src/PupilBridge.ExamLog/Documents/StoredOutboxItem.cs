namespace PupilBridge.ExamLog;

/// <summary>What is to happen to a signed version that goes to another system.</summary>
public enum OutboxList
{
    /// <summary>The service works on it.</summary>
    Open = 1,

    /// <summary>It rests until a person decides.</summary>
    Stopped = 2,

    /// <summary>It is done with.</summary>
    Settled = 3,
}

/// <summary>One signed version on its way to another system, as the exam log knows it.</summary>
public sealed record StoredOutboxItem
{
    /// <summary>The exam and the version.</summary>
    public required string Id { get; init; }

    /// <summary>In which list it stands.</summary>
    public required OutboxList List { get; init; }

    /// <summary>Where its signature stands in the journal, by which lists are ordered.</summary>
    public required long Sequence { get; init; }

    /// <summary>How far it is and what was done for it, as opaque bytes.</summary>
    public required ReadOnlyMemory<byte> Body { get; init; }
}
