using System.Runtime.InteropServices;

namespace PupilBridge.SimulatedDisk;

/// <summary>A file of a <see cref="FaultyDisk"/>: what reading shows, what is durable, and which sectors wait for a sync.</summary>
internal sealed class FaultyFile
{
    private const int SectorBytes = 512;
    private readonly List<byte> _seen = [];
    private readonly List<byte> _durable = [];
    private readonly SortedSet<int> _waiting = [];

    public int Length => _seen.Count;

    public byte[] Content => [.. _seen];

    public int Read(Span<byte> buffer, long offset)
    {
        int count = (int)Math.Clamp(_seen.Count - offset, 0, buffer.Length);
        if (count > 0)
            CollectionsMarshal.AsSpan(_seen).Slice((int)offset, count).CopyTo(buffer);
        return count;
    }

    public void Write(ReadOnlySpan<byte> bytes, long offset)
    {
        if (bytes.IsEmpty)
            return;
        Resize(_seen, Math.Max(_seen.Count, (int)offset + bytes.Length));
        bytes.CopyTo(CollectionsMarshal.AsSpan(_seen)[(int)offset..]);
        for (int sector = (int)offset / SectorBytes; sector * SectorBytes < offset + bytes.Length; sector++)
            _waiting.Add(sector);
    }

    public void SetLength(int length) => Resize(_seen, length);

    public void Sync()
    {
        Resize(_durable, _seen.Count);
        foreach (int sector in _waiting)
            CopySector(sector, SectorBytes);
        _waiting.Clear();
    }

    /// <summary>Some sectors reach the disk, the others never will.</summary>
    public void FailSync(Random chance)
    {
        Resize(_durable, chance.Next(2) == 0 ? _durable.Count : _seen.Count);
        foreach (int sector in _waiting)
        {
            if (chance.Next(2) == 0)
                CopySector(sector, SectorBytes);
        }
        _waiting.Clear();
    }

    public void LosePower(Random chance, FiredFaults fired)
    {
        int low = Math.Min(_durable.Count, _seen.Count);
        int high = Math.Max(_durable.Count, _seen.Count);
        int length = chance.Next(3) switch
        {
            0 => _durable.Count,
            1 => _seen.Count,
            _ => chance.Next(low, high + 1),
        };
        Resize(_durable, high);
        bool lost = false;
        foreach (int sector in _waiting)
        {
            int kept = chance.Next(4) switch
            {
                0 => 0,
                1 => chance.Next(SectorBytes),
                _ => SectorBytes,
            };
            CopySector(sector, kept);
            // Whole behind one that is lost: the disk wrote them in another order than they were given.
            fired.Count(kept == 0 ? DiskFault.SectorLost : DiskFault.SectorTorn, kept == SectorBytes ? 0 : 1);
            fired.Count(DiskFault.SectorsReordered, lost && kept == SectorBytes ? 1 : 0);
            lost |= kept == 0;
        }
        Resize(_durable, length);
        _seen.Clear();
        _seen.AddRange(_durable);
        _waiting.Clear();
    }

    public void Edit(Action<List<byte>> change)
    {
        change(_seen);
        _durable.Clear();
        _durable.AddRange(_seen);
        _waiting.Clear();
    }

    public FaultyFile Clone()
    {
        var clone = new FaultyFile();
        clone._seen.AddRange(_seen);
        clone._durable.AddRange(_seen);
        return clone;
    }

    private void CopySector(int sector, int count)
    {
        int from = sector * SectorBytes;
        count = Math.Min(count, Math.Min(_seen.Count, _durable.Count) - from);
        if (count > 0)
            CollectionsMarshal.AsSpan(_seen).Slice(from, count).CopyTo(CollectionsMarshal.AsSpan(_durable)[from..]);
    }

    private static void Resize(List<byte> bytes, int length)
    {
        int old = bytes.Count;
        CollectionsMarshal.SetCount(bytes, length);
        if (length > old)
            CollectionsMarshal.AsSpan(bytes)[old..].Clear();
    }
}
