using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports.Tests;

/// <summary>A pseudo-terminal with chosen permissions, for opening as another account.</summary>
[SupportedOSPlatform("linux")]
internal sealed class PseudoTerminalForOthers : IDisposable
{
    private readonly PseudoTerminal terminal = new();

    internal PseudoTerminalForOthers(UnixFileMode mode)
    {
        Path = terminal.DevicePath!;
        File.SetUnixFileMode(Path, mode);
    }

    internal string Path { get; }

    public void Dispose() => terminal.Close();

    /// <summary>Opens it as a program does that knows the kernel's exclusive mode and no other lock.</summary>
    internal unsafe FileHandle OpenExclusive()
    {
        var handle = Errno.Checked(LinuxCalls.Open(Path, LinuxNumbers.OpenTerminal), "open");
        Errno.Checked(LinuxCalls.Ioctl(handle, LinuxNumbers.SetExclusive, null), "ioctl");
        return handle;
    }
}
