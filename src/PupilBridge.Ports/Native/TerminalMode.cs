using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>Sets a terminal to carry bytes as they are: raw, 8 data bits, no parity, 1 stop bit, no flow control.</summary>
[SupportedOSPlatform("linux")]
internal static unsafe class TerminalMode
{
    // struct termios is 60 bytes; a later C library may know a longer one.
    private const int TermiosBytes = 128;
    private const int InputFlags = 0;
    private const int ControlFlags = 8;
    private const int TimeIndex = 17 + 5;
    private const int MinimumIndex = 17 + 6;
    private const uint SoftwareFlow = 0x400 | 0x800 | 0x1000; // IXON, IXANY, IXOFF
    private const uint TwoStopBits = 0x40; // CSTOPB
    private const uint Receiver = 0x80; // CREAD
    private const uint HangUpOnClose = 0x400; // HUPCL
    private const uint IgnoreModemLines = 0x800; // CLOCAL
    private const uint HardwareFlow = 0x80000000; // CRTSCTS

    // The codes of speeds for C libraries that do not take the plain number (musl).
    private static readonly Dictionary<int, uint> SpeedCodes = new()
    {
        [1200] = 0x9,
        [2400] = 0xB,
        [4800] = 0xC,
        [9600] = 0xD,
        [19_200] = 0xE,
        [38_400] = 0xF,
        [57_600] = 0x1001,
        [115_200] = 0x1002,
        [230_400] = 0x1003,
        [460_800] = 0x1004,
        [500_000] = 0x1005,
        [576_000] = 0x1006,
        [921_600] = 0x1007,
        [1_000_000] = 0x1008,
    };

    /// <summary>Sets the terminal.</summary>
    /// <param name="terminal">The terminal, or the master of a pseudo-terminal.</param>
    /// <param name="baud">Bits a second.</param>
    /// <returns>0, or the error number; <see cref="LinuxNumbers.InvalidArgument"/> when the speed is not taken.</returns>
    internal static int SetRaw(FileHandle terminal, int baud)
    {
        var termios = stackalloc byte[TermiosBytes];
        if (LinuxCalls.GetAttributes(terminal, termios) != 0)
        {
            return Errno.Last;
        }

        LinuxCalls.MakeRaw(termios);
        *(uint*)(termios + InputFlags) &= ~SoftwareFlow;
        var control = (uint*)(termios + ControlFlags);
        *control &= ~(TwoStopBits | HardwareFlow);
        // Dropping DTR at close resets some boards in mid exam, so it stays up.
        *control &= ~HangUpOnClose;
        *control |= Receiver | IgnoreModemLines;
        termios[TimeIndex] = 0;
        termios[MinimumIndex] = 1;
        if (!SetSpeed(termios, baud))
        {
            return LinuxNumbers.InvalidArgument;
        }

        var wanted = LinuxCalls.GetOutputSpeed(termios);
        if (
            LinuxCalls.SetAttributes(terminal, LinuxNumbers.SetNow, termios) != 0
            || LinuxCalls.GetAttributes(terminal, termios) != 0
        )
        {
            return Errno.Last;
        }

        // The call succeeds if any one of the wishes was met, so the speed is read back.
        return LinuxCalls.GetOutputSpeed(termios) == wanted ? 0 : LinuxNumbers.InvalidArgument;
    }

    private static bool SetSpeed(byte* termios, int baud) =>
        LinuxCalls.SetSpeed(termios, (uint)baud) == 0
        || (SpeedCodes.TryGetValue(baud, out var code) && LinuxCalls.SetSpeed(termios, code) == 0);
}
