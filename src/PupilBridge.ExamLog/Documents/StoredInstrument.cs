namespace PupilBridge.ExamLog;

/// <summary>One instrument as the exam log knows it.</summary>
public sealed record StoredInstrument
{
    /// <summary>The instrument's own serial number.</summary>
    public required string Id { get; init; }

    /// <summary>What it last said of itself, as opaque bytes.</summary>
    public required ReadOnlyMemory<byte> Body { get; init; }
}
