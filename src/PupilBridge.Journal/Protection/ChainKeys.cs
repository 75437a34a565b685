namespace PupilBridge.Journal;

/// <summary>
/// How the segments of a chain are stored, and their keys. For a segment whose header is sound the header says it; for one whose header is damaged
/// the key beside it, and where that is gone as well, the segment after it, or what stands before it under the key.
/// </summary>
internal sealed class ChainKeys(IJournalDisk disk, JournalFolder folder, SegmentChain chain)
{
    /// <summary>The header of a segment, null where it is damaged.</summary>
    public SegmentHeader? HeaderOf(int index) => chain.Segments[index].Header;

    /// <summary>How a segment is stored, as far as header, key and the segment after it tell.</summary>
    public StoredForm FormOf(int index)
    {
        SegmentFile segment = chain.Segments[index];
        if (segment.Header is { } header)
            return header.Protection == 0 ? StoredForm.Clear : StoredForm.Encrypted;
        return SegmentKeyStore.Read(disk, folder, segment.Number, out _) is null
            ? SaidBySuccessor(index)
            : StoredForm.Encrypted;
    }

    /// <summary>Whether the journal holds encrypted segments, so that one of which nothing is told may be one.</summary>
    public bool HoldsEncrypted => Enumerable.Range(0, chain.Segments.Count).Any(i => FormOf(i) == StoredForm.Encrypted);

    /// <summary>The cipher of a segment; null where its records stand in the clear, or nothing says that they do not.</summary>
    /// <exception cref="JournalKeyException">They are encrypted, and the keys at hand do not open them.</exception>
    public SegmentCipher? Open(int index)
    {
        SegmentFile segment = chain.Segments[index];
        SegmentCipher? cipher = SegmentKeyStore.Open(disk, folder, segment);
        if (cipher is not null || segment.Header is not null)
            return cipher;
        string? why = FormOf(index) switch
        {
            StoredForm.Encrypted => "the segment after it says that it is encrypted",
            StoredForm.NotTold when ClearRule.Before(this, index) == ClearStanding.Unannounced =>
                "it follows on an encrypted one, in which nothing says that the journal goes on in the clear",
            _ => null,
        };
        return why is null
            ? null
            : throw new JournalKeyException(
                $"The header of {segment.Path} is damaged, and {why}; {SegmentName.KeyOf(segment.Number)} beside it, which would open it, is "
                    + "missing or damaged. Nothing was changed. Put that file back from a backup of the journal's folder."
            );
    }

    /// <summary>The cipher of a segment; null where the keys at hand do not open it.</summary>
    public SegmentCipher? TryOpen(int index)
    {
        try
        {
            return SegmentKeyStore.Open(disk, folder, chain.Segments[index]);
        }
        catch (JournalKeyException)
        {
            return null;
        }
    }

    /// <summary>Opens a walk through a segment, wherever the one before it ended.</summary>
    public SegmentWalk Walk(int index) => chain.Walk(disk, index, default);

    private StoredForm SaidBySuccessor(int index) =>
        index + 1 < chain.Segments.Count
        && chain.Segments[index + 1].Header is { } next
        && next.PredecessorNumber == chain.Segments[index].Number
            ? next.PredecessorForm
            : StoredForm.NotTold;
}
