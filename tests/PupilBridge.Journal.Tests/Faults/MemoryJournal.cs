using System.Text;
using PupilBridge.Keys;

namespace PupilBridge.Journal.Tests.Faults;

/// <summary>A small journal on a <see cref="FaultyDisk"/>, and what tests ask of it.</summary>
internal static class MemoryJournal
{
    /// <summary>The master key of all tests; what is not encrypted does not mind it.</summary>
    public static KeyRing Keys { get; } = KeyRing.Create(TimeProvider.System);

    public static JournalFolder Folder { get; } = new("/quay") { Keys = Keys };

    public static JournalOptions Options(int preallocate = 0, long segmentBytes = 64 << 20, bool encrypt = false) =>
        new()
        {
            Folder = Folder,
            Encrypt = encrypt,
            PreallocateBytes = preallocate,
            MaxSegmentBytes = segmentBytes,
            WriterInstance = new Guid(7, 7, 7, new byte[8]),
        };

    public static string Segment(int number) => Folder.InSegments(SegmentName.Of(number));

    /// <summary>Two runs: entries 1 to 6 in three batches and a clean stop (7), then entries 8 to 10 in two, and no stop.</summary>
    public static FaultyDisk Small(int preallocate = 0, bool encrypt = false)
    {
        var disk = new FaultyDisk(0);
        using (JournalWriter writer = JournalWriter.Open(disk, Options(preallocate, encrypt: encrypt)))
        {
            Append(writer, 1, 1);
            Append(writer, 2, 4);
            Append(writer, 5, 6);
            Assert.True(writer.StopCleanly().IsDurable);
        }
        using (JournalWriter writer = JournalWriter.Open(disk, Options(preallocate, encrypt: encrypt)))
        {
            Append(writer, 8, 9);
            Append(writer, 10, 10);
        }
        return disk;
    }

    public static void Append(JournalWriter writer, int first, int last)
    {
        for (int i = first; i <= last; i++)
            Assert.Equal(i, writer.Append(Encoding.UTF8.GetBytes(Text(i))));
        Assert.True(writer.Commit().IsDurable);
    }

    public static string Key(int number) => Folder.InSegments(SegmentName.KeyOf(number));

    public static string Text(long sequence) => $"entry {sequence} of the quay";

    public static JournalWriter Open(IJournalDisk disk) => JournalWriter.Open(disk, Options());

    public static VerifyReport Verify(IJournalDisk disk, JournalPosition? head = null) =>
        JournalVerifier.Verify(disk, Folder, head);

    public static List<JournalRecord> ReadAll(IJournalDisk disk)
    {
        using JournalReader reader = JournalReader.Settled(disk, Folder);
        return [.. reader.ReadAll()];
    }

    public static List<long> EntrySequences(IJournalDisk disk) =>
        [.. ReadAll(disk).Where(r => r.Class == RecordClass.Entry).Select(r => r.Sequence)];

    /// <summary>Each entry of a <see cref="Small"/> journal that is read must be exactly the one that was written.</summary>
    public static void AssertNothingFalse(IEnumerable<JournalRecord> records, long upTo = 10) =>
        Assert.All(
            records.Where(r => r.Class == RecordClass.Entry && r.Sequence <= upTo),
            r => Assert.Equal(Text(r.Sequence), Encoding.UTF8.GetString(r.Payload.Span))
        );
}
