using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Journal;

/// <summary>The reading side of the journal. A seam, so that tests can prove that a spoilt one is found.</summary>
internal interface IJournalUnderTest
{
    IEnumerable<JournalRecord> Read(IJournalDisk disk);

    VerifyReport Verify(IJournalDisk disk, JournalPosition? head);
}

/// <summary>The product's reader and verifier.</summary>
internal sealed class ProductJournal : IJournalUnderTest
{
    public IEnumerable<JournalRecord> Read(IJournalDisk disk)
    {
        using var reader = JournalReader.Settled(disk, BaseJournals.Folder);
        while (reader.TryRead() is { } record)
            yield return record;
    }

    public VerifyReport Verify(IJournalDisk disk, JournalPosition? head) =>
        JournalVerifier.Verify(disk, BaseJournals.Folder, head);
}
