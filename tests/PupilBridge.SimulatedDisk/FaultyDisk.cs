using PupilBridge.Journal;

namespace PupilBridge.SimulatedDisk;

/// <summary>
/// A disk in memory that can do what real ones do.
/// <para>The fault model. What it does:</para>
/// <list type="bullet">
/// <item>A write that fails may have written any beginning of what it was given.</item>
/// <item>What was not synced before a power loss survives sector by sector (512 bytes) as chance will have it: each sector
/// is old, new, or torn in its middle; the file has its old length, its new one, or one between.</item>
/// <item>A sync that fails loses any of the sectors that were waiting, and the next sync does not bring them back, though
/// reading still shows them until the power goes.</item>
/// <item>Names made, changed and deleted survive a power loss up to some one of them, unless the folder was synced.</item>
/// <item>The disk is full at a given number of bytes; what fits is written, then the write fails.</item>
/// <item>A byte changes by itself (<see cref="Rot"/>).</item>
/// <item>A place cannot be read (<see cref="UnreadableAt"/>).</item>
/// <item>A sync hangs until it is let go (<see cref="SyncGate"/>).</item>
/// <item>The process dies in the middle of an operation (<see cref="DieAt"/>): any beginning of a write is there, any other
/// operation has happened or not; what was written before it, synced or not, stays.</item>
/// </list>
/// <para>What it does not do, unless it is told to lie: lose what was synced, write to another place than it was told, or reorder names.</para>
/// </summary>
public sealed partial class FaultyDisk : IJournalDisk
{
    private readonly Lock _gate = new();
    private Dictionary<string, FaultyFile> _names = [];
    private readonly List<Dictionary<string, FaultyFile>> _nameHistory =
    [
        [],
    ];
    private readonly HashSet<string> _locks = [];
    private readonly Random _chance;

    public FaultyDisk(int seed) => _chance = new Random(seed);

    public Guid BootId { get; private set; } = new(1, 0, 0, new byte[8]);

    /// <summary>The operation (from 1) that fails, 0 for none, and how many from there on.</summary>
    public int FailAt { get; set; }

    public int FailFor { get; set; } = 1;

    /// <summary>
    /// What fails the next time that it is done, each once: opening, renaming, deleting, cutting or syncing of names, which are too rare to be
    /// met by counting operations.
    /// </summary>
    public HashSet<DiskFault> FailNext { get; } = [];

    /// <summary>How many operations that can fail there were.</summary>
    public int Operations { get; private set; }

    /// <summary>How many were made to fail.</summary>
    public int Failed { get; private set; }

    /// <summary>The operation (from 1) within which the process dies, 0 for none.</summary>
    public int DieAt { get; set; }

    /// <summary>Whether the process is dead: nothing more happens on its behalf until <see cref="EndProcess"/>.</summary>
    public bool IsProcessDead { get; private set; }

    /// <summary>How often each fault really happened.</summary>
    public FiredFaults Fired { get; } = new();

    public long Capacity { get; set; } = long.MaxValue;

    /// <summary>The places that cannot be read, by path and offset.</summary>
    public HashSet<(string Path, long Offset)> UnreadableAt { get; } = [];

    public int Syncs { get; private set; }

    /// <summary>Whether it confirms syncs that it does not do: what no journal can stand, and a check must notice.</summary>
    public bool LiesAboutSyncs { get; set; }

    public ManualResetEventSlim SyncGate { get; } = new(initialState: true);

    public void CreateFolder(string folder) { }

    public IReadOnlyList<string> List(string folder)
    {
        ThrowIfDead();
        lock (_gate)
            return
            [
                .. _names
                    .Keys.Where(p => Path.GetDirectoryName(p) == folder)
                    .Select(p => Path.GetFileName(p))
                    .Order(StringComparer.Ordinal),
            ];
    }

    public IJournalFile Open(string path, JournalFileMode mode)
    {
        ThrowIfDead();
        lock (_gate)
        {
            if (mode != JournalFileMode.Read)
                MayFail(DiskFault.OpenFailed, path);
            if (mode == JournalFileMode.CreateNew)
            {
                if (_names.ContainsKey(path))
                    throw new IOException($"{path} exists.");
                Rename_NeedsGate(names => names[path] = new FaultyFile());
            }
            if (!_names.TryGetValue(path, out FaultyFile? file))
                throw new FileNotFoundException($"There is no {path}.");
            return new FaultyHandle(this, file, path);
        }
    }

    public void Rename(string path, string newPath)
    {
        lock (_gate)
        {
            MayFail(DiskFault.RenameFailed, path);
            Rename_NeedsGate(names =>
            {
                names.Add(newPath, names[path]);
                names.Remove(path);
            });
        }
    }

    public void Delete(string path)
    {
        lock (_gate)
        {
            if (!_names.ContainsKey(path))
                return;
            MayFail(DiskFault.DeleteFailed, path);
            Rename_NeedsGate(names => names.Remove(path));
        }
    }

    public void SyncFolder(string folder)
    {
        lock (_gate)
        {
            MayFail(DiskFault.FolderSyncFailed, folder);
            _nameHistory.RemoveRange(0, _nameHistory.Count - 1);
        }
    }

    public long FreeBytes(string folder) => Capacity - Used;

    public IDisposable Lock(JournalFolder folder)
    {
        if (!_locks.Add(folder.DataFolder))
            throw new JournalLockedException("held") { Folder = folder.DataFolder };
        return new Unlock(() => _locks.Remove(folder.DataFolder));
    }

    public bool IsLocked(JournalFolder folder) => _locks.Contains(folder.DataFolder);

    /// <summary>The power fails: what was not synced is up to chance, and the machine starts anew.</summary>
    public void LosePower()
    {
        lock (_gate)
        {
            int kept = _chance.Next(_nameHistory.Count);
            Fired.Count(DiskFault.NamesLost, kept < _nameHistory.Count - 1 ? 1 : 0);
            _names = _nameHistory[kept];
            _nameHistory.Clear();
            _nameHistory.Add(new(_names));
            foreach (FaultyFile file in _names.Values)
                file.LosePower(_chance, Fired);
            EndProcess();
            BootId = new Guid(_chance.Next(), 0, 0, new byte[8]);
        }
    }

    /// <summary>The process ends by force: its locks go, and nothing else.</summary>
    public void EndProcess()
    {
        _locks.Clear();
        IsProcessDead = false;
    }

    /// <summary>Changes one byte for good.</summary>
    public void Rot(string path, long offset, byte mask)
    {
        Edit(path, bytes => bytes[(int)offset] ^= mask);
        Fired.Count(DiskFault.Rot);
    }

    /// <summary>Changes a file for good.</summary>
    public void Edit(string path, Action<List<byte>> change)
    {
        lock (_gate)
            _names[path].Edit(change);
    }

    /// <summary>All files.</summary>
    public IReadOnlyList<string> Paths
    {
        get
        {
            lock (_gate)
                return [.. _names.Keys.Order(StringComparer.Ordinal)];
        }
    }

    public byte[] Content(string path)
    {
        lock (_gate)
            return _names[path].Content;
    }

    /// <summary>A disk with the same files, all durable.</summary>
    public FaultyDisk Clone(int seed = 0)
    {
        var clone = new FaultyDisk(seed) { BootId = BootId };
        lock (_gate)
        {
            foreach ((string path, FaultyFile file) in _names)
                clone._names[path] = file.Clone();
        }
        clone._nameHistory[0] = new(clone._names);
        return clone;
    }

    public void Remove(string path)
    {
        lock (_gate)
        {
            Rename_NeedsGate(names => names.Remove(path));
            _nameHistory.RemoveRange(0, _nameHistory.Count - 1);
        }
    }

    /// <summary>How many bytes all files have together.</summary>
    public long UsedBytes
    {
        get
        {
            lock (_gate)
                return Used;
        }
    }

    private long Used => _names.Values.Distinct().Sum(f => (long)f.Length);

    private void Rename_NeedsGate(Action<Dictionary<string, FaultyFile>> change)
    {
        change(_names);
        _nameHistory.Add(new(_names));
    }

    /// <summary>Counts an operation, which may fail or be the last thing that the process does.</summary>
    private void MayFail(DiskFault fault, string path)
    {
        if (FailsNow() || FailNext.Remove(fault))
        {
            Fired.Count(fault);
            throw new IOException($"A fault was injected on {path} ({fault}).");
        }
        if (DiesNow())
            throw Die();
    }

    private bool FailsNow()
    {
        ThrowIfDead();
        Operations++;
        bool fails = FailAt > 0 && Operations >= FailAt && Operations - FailAt < FailFor;
        if (fails)
            Failed++;
        return fails;
    }

    private bool DiesNow() => DieAt > 0 && Operations == DieAt;

    private ProcessDiedException Die(DiskFault how = DiskFault.DeathBesideWrite)
    {
        IsProcessDead = true;
        DieAt = 0;
        Fired.Count(how);
        return new ProcessDiedException();
    }

    private void ThrowIfDead()
    {
        if (IsProcessDead)
            throw new ProcessDiedException();
    }

    private sealed class Unlock(Action action) : IDisposable
    {
        public void Dispose() => action();
    }
}
