using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Fuzz.Journal;

/// <summary>The reading side of an encrypted journal. A seam, so that tests can prove that a spoilt one is found.</summary>
internal interface ISealedJournalUnderTest
{
    IEnumerable<JournalRecord> Read(IJournalDisk disk, KeyRing? keys);

    VerifyReport Verify(IJournalDisk disk, KeyRing? keys, JournalPosition? head);
}

/// <summary>The product's reader and verifier.</summary>
internal sealed class ProductSealedJournal : ISealedJournalUnderTest
{
    public IEnumerable<JournalRecord> Read(IJournalDisk disk, KeyRing? keys)
    {
        using var reader = JournalReader.Settled(disk, BaseJournals.Folder with { Keys = keys });
        while (reader.TryRead() is { } record)
            yield return record;
    }

    public VerifyReport Verify(IJournalDisk disk, KeyRing? keys, JournalPosition? head) =>
        JournalVerifier.Verify(disk, BaseJournals.Folder with { Keys = keys }, head);
}
