using System.Diagnostics;
using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Measure.Figures;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Safekeeping.Restoring;

namespace PupilBridge.Measure.Backups;

/// <summary>
/// Backups of an encrypted journal to another folder of the same disk: the first one, one with nothing new, one with a day's work,
/// verifying and restoring. Everything is read back and synced, as in life; what was just written is read from memory.
/// </summary>
internal static class BackupMeasure
{
    private const int EntryBytes = 200;
    private const int Batch = 1_000;
    private static readonly KeyRing Keys = KeyRing.Create(TimeProvider.System);
    private static readonly byte[] Entry = [.. Enumerable.Range(0, EntryBytes).Select(n => (byte)n)];

    public static void Run(FigureFile figures, string folder, int megabytes)
    {
        var journal = new JournalFolder(Path.Combine(folder, "data")) { Keys = Keys };
        using var writer = JournalWriter.Open(
            RealDisk.Instance,
            new JournalOptions { Folder = journal, Encrypt = true }
        );
        var bytes = Fill(writer, megabytes * 1_000_000L);
        var words = new PassPhraseEnvelope("quay crane rope tide seven");
        var place = new BackupPlace(Path.Combine(folder, "safe"));
        figures.Set("journal_mb", bytes / 1e6);

        var full = Timed(() => Make(journal, writer, place, words), out var took);
        figures.Set("full_s", took, 2);
        figures.Set("full_mb_per_s", bytes / 1e6 / took);
        figures.Set("full_pieces", full.NewPieces);
        figures.Set("full_stored_mb", full.NewBytes / 1e6);

        var nothing = Timed(() => Make(journal, writer, place, words), out took);
        figures.Set("nothing_new_s", took, 2);
        figures.Set("nothing_new_pieces", nothing.NewPieces);

        var day = Fill(writer, Math.Max(1, megabytes / 100) * 1_000_000L);
        var next = Timed(() => Make(journal, writer, place, words), out took);
        figures.Set("incremental_recorded_mb", day / 1e6);
        figures.Set("incremental_stored_mb", next.NewBytes / 1e6);
        figures.Set("incremental_s", took, 2);

        var verified = Timed(() => BackupCheck.Run(place, null, words, CancellationToken.None), out took);
        figures.Set("verify_mb_per_s", verified.Bytes / 1e6 / took);
        var restored = Timed(() => Restore(place, words, Path.Combine(folder, "second")), out took);
        figures.Set("restore_mb_per_s", (bytes + day) / 1e6 / took);
        if (restored.Report.Head != writer.Durable)
            throw new InvalidOperationException("What was restored is another journal.");

        var plain = new BackupPlace(Path.Combine(folder, "plain"));
        Timed(() => Make(journal, writer, plain, new PlainEnvelope()), out took);
        figures.Set("full_unencrypted_mb_per_s", (bytes + day) / 1e6 / took);
        System.Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"journal {bytes / 1e6:0} MB; full {full.NewBytes / 1e6:0} MB in {full.NewPieces} pieces; after {day / 1e6:0.0} MB more "
                    + $"{next.NewBytes / 1e6:0} MB are written; the values are in the file"
            )
        );
    }

    private static long Fill(JournalWriter writer, long bytes)
    {
        var count = bytes / (EntryBytes + 76);
        for (var i = 1L; i <= count; i++)
        {
            writer.Append(Entry);
            if ((i % Batch == 0 || i == count) && !writer.Commit().IsDurable)
                throw new IOException("A commit failed while measuring.");
        }

        // Length, class, sequences, chain value and checksum of a record are 60 bytes, the tag of an encrypted one 16.
        return count * (EntryBytes + 76);
    }

    private static BackupMade Make(JournalFolder journal, JournalWriter writer, BackupPlace place, Envelope envelope) =>
        BackupMaker.Make(
            new BackupSource
            {
                Folder = journal,
                RunningHead = writer.Durable,
                Program = "measure",
            },
            place,
            envelope,
            CancellationToken.None
        );

    private static Restored Restore(BackupPlace place, Envelope envelope, string to) =>
        BackupRestore.Run(
            new RestoreWish
            {
                Place = place,
                Envelope = envelope,
                DataFolder = to,
            },
            CancellationToken.None
        );

    private static T Timed<T>(Func<T> work, out double seconds)
    {
        var begin = Stopwatch.GetTimestamp();
        var made = work();
        seconds = Stopwatch.GetElapsedTime(begin).TotalSeconds;
        return made;
    }
}
