using PupilBridge.Fuzz.Journal;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Fuzz.Tests.Planted;

/// <summary>The product's reader and verifier with one fault: a segment in the clear after an encrypted one is nothing to remark on.</summary>
internal sealed class ClearBlindVerifier : ISealedJournalUnderTest
{
    private readonly ProductSealedJournal sound = new();

    public IEnumerable<JournalRecord> Read(IJournalDisk disk, KeyRing? keys) => sound.Read(disk, keys);

    public VerifyReport Verify(IJournalDisk disk, KeyRing? keys, JournalPosition? head)
    {
        var report = sound.Verify(disk, keys, head);
        return report with { Problems = [.. report.Problems.Where(p => p.Kind != ProblemKind.ClearUnannounced)] };
    }
}
