using Microsoft.Win32.SafeHandles;

namespace PupilBridge.Journal;

/// <summary>A file of the operating system, read and written by offset.</summary>
internal sealed class RealFile(SafeFileHandle handle, string path) : IJournalFile
{
    public long Length => RandomAccess.GetLength(handle);

    public int Read(Span<byte> buffer, long offset)
    {
        int total = 0;
        while (total < buffer.Length)
        {
            int count = RandomAccess.Read(handle, buffer[total..], offset + total);
            if (count == 0)
                break;
            total += count;
        }
        return total;
    }

    public void Write(ReadOnlySpan<byte> bytes, long offset)
    {
        try
        {
            RandomAccess.Write(handle, bytes, offset);
        }
        catch (IOException e) when (RealDisk.IsFull(e.HResult))
        {
            throw new DiskFullException($"The disk has no room for {path}.", e);
        }
    }

    public void Sync()
    {
        // Linux: fdatasync spares the time stamps. Elsewhere the base library knows the strongest call (macOS: F_FULLFSYNC).
        if (OperatingSystem.IsLinux())
            UnixCalls.SyncData(handle, path);
        else
            RandomAccess.FlushToDisk(handle);
    }

    public void SetLength(long length) => RandomAccess.SetLength(handle, length);

    public void Dispose() => handle.Dispose();
}
