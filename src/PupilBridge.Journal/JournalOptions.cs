namespace PupilBridge.Journal;

/// <summary>What a <see cref="JournalWriter"/> needs to know. The defaults suit a clinic.</summary>
public sealed record JournalOptions
{
    /// <summary>Where the journal lives.</summary>
    public required JournalFolder Folder { get; init; }

    /// <summary>
    /// A segment is closed before it grows beyond this many bytes; a single batch may exceed it.
    /// </summary>
    /// <value>
    /// The default is 64 MiB: a start reads only the last segment, and 64 MiB are read and checked well within a second.
    /// </value>
    public long MaxSegmentBytes { get; init; } = 64L << 20;

    /// <summary>The longest payload that is taken, 1 to 65,536 bytes.</summary>
    /// <value>The default is the format's own limit, 65,536.</value>
    public int MaxRecordBytes { get; init; } = RecordLayout.MaxPayloadBytes;

    /// <summary>
    /// How many zero bytes are written ahead of the records, so that a sync need not store a new file length each time.
    /// 0 writes none ahead.
    /// </summary>
    /// <value>The default is 256 KiB.</value>
    public int PreallocateBytes { get; init; } = 256 << 10;

    /// <summary>Who writes: program and version, at most 64 bytes of UTF-8 (longer text is cut). Stored in each segment.</summary>
    public string Writer { get; init; } = "pupilbridge";

    /// <summary>This run of the program. Stored in each segment.</summary>
    /// <value>The default is a new random value.</value>
    public Guid WriterInstance { get; init; } = Guid.NewGuid();

    /// <summary>
    /// Whether the segments made from now on are encrypted (AES-256-GCM, each under a key of its own that is wrapped under the current
    /// master key of the folder). Segments that are there stay as they are, and either kind is read.
    /// </summary>
    public bool Encrypt { get; init; }

    /// <summary>The clock that dates the segments.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;
}
