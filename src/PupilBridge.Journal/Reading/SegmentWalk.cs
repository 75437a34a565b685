namespace PupilBridge.Journal;

/// <summary>What a walk through a segment meets.</summary>
internal enum WalkStep
{
    /// <summary>The next record.</summary>
    Record,

    /// <summary>A place where records that were durable are missing, altered or out of order; the walk goes on after it.</summary>
    Damage,

    /// <summary>The end. What lies beyond it, if anything, is told by <see cref="SegmentWalk.Tail"/>.</summary>
    End,
}

/// <summary>What lies beyond the last record of a segment.</summary>
internal enum SegmentTail
{
    /// <summary>Nothing but zeros written ahead.</summary>
    Clean,

    /// <summary>Bytes that never became durable: the rest of a write that was not finished.</summary>
    Torn,
}

/// <summary>
/// Walks a segment in order, checking sequence and chain. The one hard question is what to make of bytes that are no
/// record: a torn tail, which nobody was told of and which may be cut, or damage, which must be shown.
/// Each record says which sequence was durable when it was written. So later sound records that all say "durable up to
/// what you have seen" belong to the same unfinished write, and everything from the bad place on is a torn tail; if any of
/// them says more, records that were acknowledged are missing, and that is damage. Where a successor segment is known,
/// its header says how far this one was durable, and that decides instead.
/// A whole record whose sequence is taken already, or is the next one with another chain value, was never written here by an
/// unfinished write: nothing is written twice into one segment. It is damage wherever it stands.
/// </summary>
internal sealed class SegmentWalk : IDisposable
{
    private readonly SegmentCursor _cursor;
    private readonly long _durableLimit;
    private readonly long _ceiling;
    private long? _resumeAt;

    /// <param name="cursor">The segment; the walk owns it.</param>
    /// <param name="start">The position before its first record.</param>
    /// <param name="chainKnown">Whether the start's hash is known. If not, the first record anchors the chain anew.</param>
    /// <param name="durableLimit">How far the successor says it was durable, or -1 when there is none.</param>
    /// <param name="ceiling">
    /// The highest sequence that it can hold, as far as any later segment tells; a record beyond it is false, whatever its checksum says.
    /// </param>
    public SegmentWalk(
        SegmentCursor cursor,
        JournalPosition start,
        bool chainKnown,
        long durableLimit,
        long ceiling = long.MaxValue
    )
    {
        _cursor = cursor;
        _durableLimit = durableLimit;
        _ceiling = ceiling;
        Position = start;
        Offset = SegmentHeader.ByteCount;
        ChainKnown = chainKnown;
    }

    /// <summary>The last record's sequence and hash.</summary>
    public JournalPosition Position { get; private set; }

    /// <summary>Where the next record begins.</summary>
    public long Offset { get; private set; }

    /// <summary>Whether the position's hash is that of the records read, so that the next one can be proved to follow.</summary>
    public bool ChainKnown { get; private set; }

    /// <summary>Whether damage was met before the present place.</summary>
    public bool AfterDamage { get; private set; }

    public SegmentTail Tail { get; private set; }

    /// <summary>The last damage met.</summary>
    public SegmentDamage Damage { get; private set; }

    /// <summary>The record met last.</summary>
    public ReadOnlySpan<byte> Record => _cursor.Record;

    /// <summary>Where the record met last begins.</summary>
    public long RecordOffset { get; private set; }

    /// <summary>The first place met that the disk could not read; null when there was none.</summary>
    public long? UnreadableAt => _cursor.UnreadableAt;

    public long FileLength => _cursor.FileLength;

    public WalkStep Next()
    {
        if (_durableLimit >= 0 && Position.Sequence >= _durableLimit)
            return StandsForeign()
                ? PassForeign()
                : End(_cursor.IsZeroFrom(Offset) ? SegmentTail.Clean : SegmentTail.Torn);
        CursorStep step = _cursor.At(Offset);
        if (step == CursorStep.Record && Belongs(_cursor.Record))
            return Accept();
        if (step == CursorStep.End)
            return _durableLimit > Position.Sequence ? MissingAtEnd() : End(SegmentTail.Clean);
        return Resolve();
    }

    public void Dispose() => _cursor.Dispose();

    private bool Belongs(ReadOnlySpan<byte> record) =>
        RecordLayout.ReadSequence(record) == _resumeAt
        || (
            RecordLayout.ReadSequence(record) == Position.Sequence + 1
            && !IsBeyond(record)
            && (!ChainKnown || RecordLayout.ReadPrevious(record) == Position.Hash)
        );

    private WalkStep Accept()
    {
        ReadOnlySpan<byte> record = _cursor.Record;
        Position = new JournalPosition(RecordLayout.ReadSequence(record), ChainHash.Of(record));
        ChainKnown = true;
        _resumeAt = null;
        RecordOffset = Offset;
        Offset += record.Length;
        return WalkStep.Record;
    }

    /// <summary>Decides between a torn tail and damage at a bad place.</summary>
    private WalkStep Resolve()
    {
        if (StandsForeign() && RecordLayout.ReadSequence(_cursor.Record) <= Position.Sequence)
            return PassForeign();
        long next = FindLater();
        if (next < 0 && _durableLimit > Position.Sequence)
            return MissingAtEnd();
        if (next < 0)
            return End(SegmentTail.Torn);
        _cursor.At(next);
        long sequence = RecordLayout.ReadSequence(_cursor.Record);
        bool altered = next == Offset && sequence == Position.Sequence + 1;
        if (_durableLimit < 0 && !altered && !IsVouchedFor(next))
            return End(SegmentTail.Torn);
        _cursor.At(next);
        Damage = new SegmentDamage(Offset, next, Position.Sequence + 1, sequence - 1);
        AfterDamage = true;
        Offset = next;
        _resumeAt = sequence;
        return WalkStep.Damage;
    }

    /// <summary>The next sound record with a later sequence that this segment can hold, or -1.</summary>
    private long FindLater()
    {
        long next = _cursor.FindRecord(Offset, Position.Sequence);
        while (next >= 0 && _cursor.At(next) == CursorStep.Record && IsBeyond(_cursor.Record))
            next = _cursor.FindRecord(next + 1, Position.Sequence);
        return next;
    }

    private bool IsBeyond(ReadOnlySpan<byte> record) => RecordLayout.ReadSequence(record) > _ceiling;

    /// <summary>Whether a whole record stands here that no write of this journal can have put here.</summary>
    private bool StandsForeign()
    {
        if (_cursor.At(Offset) != CursorStep.Record)
            return false;
        long sequence = RecordLayout.ReadSequence(_cursor.Record);
        return sequence <= Position.Sequence
            || (
                sequence == Position.Sequence + 1
                && ChainKnown
                && RecordLayout.ReadPrevious(_cursor.Record) != Position.Hash
            );
    }

    private WalkStep PassForeign()
    {
        long next = Offset + _cursor.Record.Length;
        Damage = new SegmentDamage(Offset, next, Position.Sequence + 1, Position.Sequence);
        AfterDamage = true;
        Offset = next;
        return WalkStep.Damage;
    }

    /// <summary>
    /// Whether any record from an offset on says that the bad place was durable. The records right behind it may be of the
    /// same write and know nothing; one of a later write is enough.
    /// </summary>
    private bool IsVouchedFor(long at)
    {
        while (at >= 0)
        {
            _cursor.At(at);
            if (RecordLayout.ReadDurableBefore(_cursor.Record) > Position.Sequence)
                return true;
            at = _cursor.FindRecord(at, RecordLayout.ReadSequence(_cursor.Record));
        }
        return false;
    }

    private WalkStep MissingAtEnd()
    {
        Damage = new SegmentDamage(Offset, _cursor.FileLength, Position.Sequence + 1, _durableLimit);
        AfterDamage = true;
        Position = new JournalPosition(_durableLimit, default);
        ChainKnown = false;
        return WalkStep.Damage;
    }

    private WalkStep End(SegmentTail tail)
    {
        Tail = tail;
        return WalkStep.End;
    }
}

/// <summary>A damaged place of a segment.</summary>
/// <param name="Offset">Where it begins.</param>
/// <param name="EndOffset">Where sound records go on.</param>
/// <param name="FirstMissing">The first sequence that is missing.</param>
/// <param name="LastMissing">The last; below the first when none is missing, but the chain is broken.</param>
internal readonly record struct SegmentDamage(long Offset, long EndOffset, long FirstMissing, long LastMissing);
