using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>Waiting in <c>poll</c> for a descriptor or a stop, whichever comes first.</summary>
[SupportedOSPlatform("linux")]
internal static unsafe class Waiting
{
    internal const int ForEver = -1;

    /// <summary>Waits until the descriptor shows something, the stop is set, or the time has passed.</summary>
    /// <param name="handle">The descriptor.</param>
    /// <param name="wanted">What to wait for; a hang-up is always seen.</param>
    /// <param name="stop">Ends the wait.</param>
    /// <param name="timeoutMs">Milliseconds, or <see cref="ForEver"/>.</param>
    /// <returns>What the descriptor showed (0 for nothing), and whether the stop is set.</returns>
    /// <exception cref="ObjectDisposedException">One of the two was closed.</exception>
    internal static (short Seen, bool Stopped) For(FileHandle handle, short wanted, StopSignal stop, int timeoutMs)
    {
        bool held = false,
            stopHeld = false;
        try
        {
            handle.DangerousAddRef(ref held);
            stop.Handle.DangerousAddRef(ref stopHeld);
            var entries = stackalloc PollEntry[2];
            entries[0] = new PollEntry { Descriptor = (int)handle.DangerousGetHandle(), Wanted = wanted };
            entries[1] = new PollEntry
            {
                Descriptor = (int)stop.Handle.DangerousGetHandle(),
                Wanted = LinuxNumbers.PollIn,
            };
            if (LinuxCalls.Poll(entries, 2, timeoutMs) >= 0)
            {
                return (entries[0].Seen, entries[1].Seen != 0);
            }

            return Errno.Last == LinuxNumbers.Interrupted ? ((short)0, false) : (LinuxNumbers.PollInvalid, false);
        }
        finally
        {
            if (held)
            {
                handle.DangerousRelease();
            }

            if (stopHeld)
            {
                stop.Handle.DangerousRelease();
            }
        }
    }

    /// <summary>What the descriptor shows at this moment.</summary>
    internal static short Now(FileHandle handle, short wanted)
    {
        var held = false;
        try
        {
            handle.DangerousAddRef(ref held);
            var entry = new PollEntry { Descriptor = (int)handle.DangerousGetHandle(), Wanted = wanted };
            return LinuxCalls.Poll(&entry, 1, 0) > 0 ? entry.Seen : (short)0;
        }
        finally
        {
            if (held)
            {
                handle.DangerousRelease();
            }
        }
    }
}
