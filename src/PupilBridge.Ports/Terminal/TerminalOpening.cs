using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>Opens a terminal so that no other program of ours, whatever its account, can open it too.</summary>
/// <remarks>
/// Two locks, because each has a hole. The kernel's exclusive mode (TIOCEXCL) keeps out every program but those of root,
/// and on a pseudo-terminal it outlives a killed holder. An advisory lock (flock) keeps out root too and ends with its
/// holder, but only programs that ask for it heed it.
/// </remarks>
[SupportedOSPlatform("linux")]
internal static unsafe class TerminalOpening
{
    /// <summary>Opens and locks the device.</summary>
    /// <exception cref="PortOpenException">It is missing, forbidden, busy, or no device.</exception>
    internal static FileHandle OpenLocked(string port, string path, OpenFaults faults)
    {
        var handle = LinuxCalls.Open(path, LinuxNumbers.OpenTerminal);
        if (handle.IsInvalid || LinuxCalls.Flock(handle, LinuxNumbers.LockExclusiveNonBlocking) != 0)
        {
            throw Failed(port, path, faults, handle, Errno.Last);
        }

        return handle;
    }

    /// <summary>Opens, locks and sets the device up for raw bytes.</summary>
    /// <exception cref="PortOpenException">As above, or it is no terminal, or does not take the speed.</exception>
    internal static FileHandle OpenRaw(string port, string path, int baud, OpenFaults faults)
    {
        var handle = OpenLocked(port, path, faults);
        var error = TerminalMode.SetRaw(handle, baud);
        if (error == LinuxNumbers.InvalidArgument)
        {
            handle.Dispose();
            throw OpenFaults.BadSpeed(port, baud);
        }

        if (error != 0)
        {
            throw Failed(port, path, faults, handle, error);
        }

        if (FileStatus.Of(path) is not { IsPseudoTerminal: true })
        {
            _ = LinuxCalls.Ioctl(handle, LinuxNumbers.SetExclusive, null);
        }

        // Many boards with native USB send only while DTR is up. A pseudo-terminal has no such line and says so.
        var lines = LinuxNumbers.DataTerminalReady | LinuxNumbers.RequestToSend;
        _ = LinuxCalls.Ioctl(handle, LinuxNumbers.RaiseModemLines, &lines);
        _ = LinuxCalls.Flush(handle, LinuxNumbers.FlushBoth);
        return handle;
    }

    /// <summary>Gives the device back. What is still to be sent is discarded: waiting for it can take half a minute.</summary>
    internal static void LetGo(FileHandle handle)
    {
        if (Unsent(handle) > 0)
        {
            _ = LinuxCalls.Flush(handle, LinuxNumbers.FlushOutput);
        }

        _ = LinuxCalls.Ioctl(handle, LinuxNumbers.ClearExclusive, null);
        handle.Dispose();
    }

    /// <summary>Bytes that the system still has to send; 0 if it does not say.</summary>
    internal static int Unsent(FileHandle handle)
    {
        var count = 0;
        return LinuxCalls.Ioctl(handle, LinuxNumbers.OutputQueued, &count) == 0 ? count : 0;
    }

    private static PortOpenException Failed(string port, string path, OpenFaults faults, FileHandle handle, int errno)
    {
        handle.Dispose();
        var words = System.Runtime.InteropServices.Marshal.GetPInvokeErrorMessage(errno);
        return faults.From(port, path, errno, words);
    }
}
