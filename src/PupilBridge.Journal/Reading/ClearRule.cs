namespace PupilBridge.Journal;

/// <summary>What the records under the key say of a segment in the clear that would follow now.</summary>
internal enum ClearStanding
{
    /// <summary>Nothing is encrypted so far.</summary>
    NothingEncrypted,

    /// <summary>The last record under the key says that the journal goes on in the clear.</summary>
    Announced,

    /// <summary>It does not, and whoever wrote it would have said so.</summary>
    Unannounced,

    /// <summary>It does not, and was written by a program that never said so.</summary>
    FromBeforeNotices,

    /// <summary>The last record under the key is damaged, or is a notice and there is no key to read it.</summary>
    CannotBeTold,
}

/// <summary>
/// Whether a segment may stand in the clear is decided by what stands before it under the key: by the last record that is encrypted. Its tag
/// covers the chain, and so everything before it, its own segment's header among it. What it says cannot be written, moved or taken from another
/// place without the key.
/// </summary>
internal sealed class ClearRule
{
    private bool _announces;

    /// <summary>What holds after the records that were passed so far.</summary>
    public ClearStanding Standing { get; private set; }

    /// <summary>What holds before a segment, by the nearest encrypted one before it that holds anything.</summary>
    /// <param name="keys">The chain with its keys.</param>
    /// <param name="index">The segment, or the chain's length for its end.</param>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static ClearStanding Before(ChainKeys keys, int index)
    {
        var rule = new ClearRule();
        for (int at = index - 1; at >= 0 && rule.Standing == ClearStanding.NothingEncrypted; at--)
        {
            if (keys.FormOf(at) == StoredForm.Encrypted)
                rule.PassSegment(keys, at);
        }
        return rule.Standing;
    }

    /// <summary>Passes a record of an encrypted segment.</summary>
    /// <param name="header">The segment's header, null where it is damaged.</param>
    /// <param name="recordClass">The record's class.</param>
    /// <param name="payload">Its payload, opened; empty if there was no key to open it.</param>
    public void Pass(SegmentHeader? header, RecordClass recordClass, ReadOnlySpan<byte> payload)
    {
        _announces = header?.AnnouncesClear ?? _announces;
        if (recordClass != RecordClass.Notice)
            Standing = _announces ? ClearStanding.Unannounced : ClearStanding.FromBeforeNotices;
        else if (payload.IsEmpty)
            Standing = ClearStanding.CannotBeTold;
        else if (JournalNotice.TryDecode(payload)?.Kind == ProblemKind.GoesOnInTheClear)
            Standing = ClearStanding.Announced;
        else
            Standing = _announces ? ClearStanding.Unannounced : ClearStanding.FromBeforeNotices;
    }

    /// <summary>Passes a place of an encrypted segment where something was altered: it may have been the notice.</summary>
    public void PassDamage() => Standing = ClearStanding.CannotBeTold;

    private void PassSegment(ChainKeys keys, int index)
    {
        using SegmentCipher? cipher = keys.TryOpen(index);
        using SegmentWalk walk = keys.Walk(index);
        byte[] last = [];
        bool isDamaged = false;
        for (WalkStep step = walk.Next(); step != WalkStep.End; step = walk.Next())
        {
            isDamaged = step == WalkStep.Damage;
            last = isDamaged ? [] : walk.Record.ToArray();
        }
        byte[]? payload = last.Length > 0 ? cipher?.Open(last) : null;
        if (isDamaged || (last.Length > 0 && cipher is not null && payload is null))
            PassDamage();
        else if (last.Length > 0)
            Pass(keys.HeaderOf(index), RecordLayout.ReadClass(last), payload);
    }
}
