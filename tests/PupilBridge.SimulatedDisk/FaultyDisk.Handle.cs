using PupilBridge.Journal;

namespace PupilBridge.SimulatedDisk;

// An open file: where the faults of reading, writing and syncing happen.
public sealed partial class FaultyDisk
{
    private sealed class FaultyHandle(FaultyDisk disk, FaultyFile file, string path) : IJournalFile
    {
        public long Length
        {
            get
            {
                lock (disk._gate)
                    return file.Length;
            }
        }

        public int Read(Span<byte> buffer, long offset)
        {
            disk.ThrowIfDead();
            long end = offset + buffer.Length;
            if (
                disk.UnreadableAt.Count > 0
                && disk.UnreadableAt.Any(u => u.Path == path && u.Offset >= offset && u.Offset < end)
            )
                throw new IOException($"A fault was injected in reading {path}.");
            lock (disk._gate)
                return file.Read(buffer, offset);
        }

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            lock (disk._gate)
            {
                if (disk.FailsNow())
                {
                    int written = disk._chance.Next(4) == 0 ? 0 : disk._chance.Next(bytes.Length + 1);
                    file.Write(bytes[..written], offset);
                    disk.Fired.Count(written == 0 ? DiskFault.WriteFailed : DiskFault.ShortWrite);
                    throw new IOException($"A fault was injected in writing {path}.");
                }
                if (disk.DiesNow())
                {
                    file.Write(bytes[..disk._chance.Next(bytes.Length + 1)], offset);
                    throw disk.Die(DiskFault.DeathInWrite);
                }
                long growth = Math.Max(0, offset + bytes.Length - file.Length);
                // What overwrites bytes that are there needs no room.
                long room = disk.Capacity == long.MaxValue ? long.MaxValue : Math.Max(0, disk.Capacity - disk.Used);
                if (growth > room)
                {
                    file.Write(bytes[..(int)Math.Max(0, bytes.Length - (growth - room))], offset);
                    disk.Fired.Count(DiskFault.DiskFull);
                    throw new DiskFullException($"The disk has no room for {path}.");
                }
                file.Write(bytes, offset);
            }
        }

        public void Sync()
        {
            disk.SyncGate.Wait();
            lock (disk._gate)
            {
                disk.Syncs++;
                if (disk.FailsNow())
                {
                    file.FailSync(disk._chance);
                    disk.Fired.Count(DiskFault.SyncFailed);
                    throw new IOException($"A fault was injected in syncing {path}.");
                }
                if (disk.DiesNow())
                {
                    if (disk._chance.Next(2) == 0)
                        file.Sync();
                    throw disk.Die(DiskFault.DeathInSync);
                }
                if (disk.LiesAboutSyncs)
                    return;
                file.Sync();
            }
        }

        public void SetLength(long length)
        {
            lock (disk._gate)
            {
                disk.MayFail(DiskFault.CutFailed, path);
                file.SetLength((int)length);
            }
        }

        public void Dispose() { }
    }
}
