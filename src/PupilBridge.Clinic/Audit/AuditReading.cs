using System.Globalization;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// Reads the stream backwards, a stretch at a time. One page looks at a bounded number of notes, whatever the stream's length, and says where
/// to go on; a day is found by halving.
/// </summary>
internal static class AuditReading
{
    private const int Stretch = 4096;
    private const int MostLookedAt = 64 * 1024;

    /// <summary>Lists notes.</summary>
    /// <param name="parts">Where the stream lies.</param>
    /// <param name="search">Which ones.</param>
    /// <param name="end">The last note on disk.</param>
    /// <param name="cancellation">Gives up.</param>
    public static AuditPage List(AuditParts parts, AuditSearch search, long end, CancellationToken cancellation)
    {
        var limit = Math.Clamp(search.Limit, 1, 500);
        var last = Math.Min(end, After(search) ?? long.MaxValue);
        if (search.Before is { } before)
        {
            last = Math.Min(last, LastBefore(parts, before, end));
        }

        var keys = (ISubjectKeys?)parts.SubjectKeys() ?? NoSubjectKeys.Instance;
        var filter = new AuditFilter(search, keys);
        var found = new List<AuditLine>();
        var lookedAt = 0;
        while (last > 0 && found.Count < limit && lookedAt < MostLookedAt)
        {
            var first = Math.Max(1, last - Stretch + 1);
            var notes = Read(parts, first, last, cancellation);
            for (var at = notes.Count - 1; at >= 0; at--)
            {
                if (found.Count == limit)
                {
                    return new AuditPage(found, Mark(notes[at].Number));
                }

                if (filter.Fits(notes[at].Record))
                {
                    found.Add(new AuditLine(notes[at].Number, notes[at].Record.Opened(keys)));
                }
            }

            lookedAt += (int)(last - first + 1);
            last = first - 1;
            if (search.From is { } from && notes.Count > 0 && notes.TrueForAll(one => one.Record.Note.At < from))
            {
                return new AuditPage(found, null);
            }
        }

        return new AuditPage(found, last > 0 ? Mark(last) : null);
    }

    private static string Mark(long last) => last.ToString(CultureInfo.InvariantCulture);

    private static long? After(AuditSearch search) =>
        long.TryParse(search.After, NumberStyles.None, CultureInfo.InvariantCulture, out var mark) ? mark : null;

    private static List<(long Number, AuditRecord Record)> Read(
        AuditParts parts,
        long first,
        long last,
        CancellationToken cancellation
    )
    {
        var notes = new List<(long, AuditRecord)>();
        using var reader = JournalReader.Live(parts.Disk, parts.Folder, first, () => last);
        while (reader.TryRead() is { } record && record.Sequence <= last)
        {
            cancellation.ThrowIfCancellationRequested();
            if (record.Class == RecordClass.Entry && AuditRecord.Read(record.Payload) is { } note)
            {
                notes.Add((record.Sequence, note));
            }
        }

        return notes;
    }

    /// <summary>The last place at which an earlier note may stand. (A clock that was put back makes it a little early or late.)</summary>
    private static long LastBefore(AuditParts parts, DateTimeOffset moment, long end)
    {
        var (low, high) = (0L, end);
        while (low < high)
        {
            var middle = low + ((high - low + 1) / 2);
            if (TimeAtOrBefore(parts, middle, low) is { } at && at >= moment)
            {
                high = middle - 1;
            }
            else
            {
                low = middle;
            }
        }

        return low;
    }

    /// <summary>The time of the nearest note at or before a place; the stream's own records in between have none.</summary>
    private static DateTimeOffset? TimeAtOrBefore(AuditParts parts, long place, long floor)
    {
        for (var at = place; at > floor; at--)
        {
            if (
                JournalReader.Find(parts.Disk, parts.Folder, at, place) is { Class: RecordClass.Entry } record
                && AuditRecord.Read(record.Payload) is { } note
            )
            {
                return note.Note.At;
            }
        }

        return null;
    }
}
