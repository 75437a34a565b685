using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>An eventfd that is set once and never cleared: every wait that watches it ends, now and later.</summary>
[SupportedOSPlatform("linux")]
internal sealed class StopSignal : IDisposable
{
    private volatile bool set;

    internal StopSignal()
    {
        Handle = Errno.Checked(
            LinuxCalls.EventFd(0, LinuxNumbers.OpenNonBlocking | LinuxNumbers.OpenCloseOnExec),
            "eventfd"
        );
    }

    internal FileHandle Handle { get; }

    /// <summary>Whether it was set.</summary>
    internal bool IsSet => set;

    internal void Set()
    {
        set = true;
        try
        {
            _ = LinuxCalls.Write(Handle, BitConverter.GetBytes(1UL), sizeof(ulong));
        }
        catch (ObjectDisposedException)
        {
            // Whoever waited has gone already.
        }
    }

    public void Dispose() => Handle.Dispose();
}
