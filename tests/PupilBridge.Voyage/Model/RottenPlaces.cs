using PupilBridge.Journal;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// Which bytes of which records were changed behind the product's back. Undone in a copy, the journal must be whole; and the
/// product must report exactly these records, whatever it goes on to do.
/// </summary>
internal sealed class RottenPlaces
{
    private readonly List<(string File, int Offset, byte Mask)> places = [];
    private readonly Dictionary<long, CopiedRecord> records = [];

    /// <summary>The records that were spoilt, by sequence.</summary>
    public IReadOnlyDictionary<long, CopiedRecord> Records => records;

    /// <summary>The segments as they are, by file name.</summary>
    public static Dictionary<string, byte[]> Files(FaultyDisk disk, JournalFolder folder) =>
        disk.List(folder.Segments)
            .Where(name => name.EndsWith(".pbj", StringComparison.Ordinal))
            .ToDictionary(name => name, name => disk.Content(folder.InSegments(name)));

    /// <summary>The segments as they were before bytes changed.</summary>
    public Dictionary<string, byte[]> Undone(FaultyDisk disk, JournalFolder folder)
    {
        var files = Files(disk, folder);
        foreach (var (file, offset, mask) in places)
        {
            if (files.TryGetValue(file, out var bytes))
                bytes[offset] ^= mask;
        }

        return files;
    }

    /// <summary>Changes a byte of a record that something later vouches for.</summary>
    /// <returns>False if there is none.</returns>
    public bool TryRot(FaultyDisk disk, JournalFolder folder, Chance chance)
    {
        var copy = JournalCopy.Read(Undone(disk, folder));
        var vouched = copy.Records.Count == 0 ? 0 : copy.Records[^1].DurableBefore;
        var old = copy.Records.Where(r => r.Sequence <= vouched && !records.ContainsKey(r.Sequence)).ToList();
        if (old.Count == 0)
            return false;
        var record = old[chance.NextInteger(0, old.Count)];
        var offset = record.Offset + chance.NextInteger(0, record.Length);
        var mask = (byte)(1 << chance.NextInteger(0, 8));
        disk.Rot(folder.InSegments(record.File), offset, mask);
        places.Add((record.File, offset, mask));
        records[record.Sequence] = record;
        return true;
    }
}
