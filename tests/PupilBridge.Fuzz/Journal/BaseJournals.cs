using System.Text;
using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Journal;

/// <summary>The journals from which images are made, written by the product: one segment, several, with and without a clean stop, zeros ahead.</summary>
internal static class BaseJournals
{
    public static JournalFolder Folder { get; } = new("/quay");

    /// <summary>All of them.</summary>
    public static IReadOnlyList<BaseJournal> All { get; } =
    [
        Write(
            0,
            [
                [1, 3],
            ],
            64 << 20,
            0
        ),
        Write(
            1,
            [
                [1, 3, 2],
                [2, 1],
            ],
            64 << 20,
            0
        ),
        Write(
            2,
            [
                [2, 2, 3, 1],
            ],
            700,
            0
        ),
        Write(
            3,
            [
                [2, 1],
                [3],
                [1],
            ],
            64 << 20,
            96
        ),
    ];

    private static BaseJournal Write(byte index, int[][] runs, long segmentBytes, int zeros)
    {
        var disk = new ImageDisk();
        var head = default(JournalPosition);
        List<byte[]> entries = [];
        foreach (var run in runs)
        {
            using var writer = JournalWriter.Open(disk, Options(segmentBytes, zeros));
            foreach (var commit in run)
            {
                for (var i = 0; i < commit; i++)
                {
                    entries.Add(Encoding.UTF8.GetBytes($"entry {entries.Count + 1} of the quay"));
                    writer.Append(entries[^1]);
                }

                Check(writer.Commit().IsDurable);
                head = writer.Durable;
            }

            // The last run of each journal ends without a word, so that there is an end that nothing vouches for.
            if (run != runs[^1])
                Check(writer.StopCleanly().IsDurable);
        }

        return new BaseJournal(Image.Of(index, disk.Segments), head, entries);
    }

    private static JournalOptions Options(long segmentBytes, int zeros) =>
        new()
        {
            Folder = Folder,
            PreallocateBytes = zeros,
            MaxSegmentBytes = segmentBytes,
            WriterInstance = new Guid(7, 7, 7, new byte[8]),
            Time = new StillTime(),
        };

    private static void Check(bool durable)
    {
        if (!durable)
            throw new InvalidOperationException("A journal in memory could not be written.");
    }

    private sealed class StillTime : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);
    }
}

/// <summary>A journal as it was written.</summary>
/// <param name="Image">Its segments.</param>
/// <param name="Head">Its head, as it would be kept elsewhere.</param>
/// <param name="Entries">Its entries in order.</param>
internal sealed record BaseJournal(byte[] Image, JournalPosition Head, IReadOnlyList<byte[]> Entries);
