using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>The loop that takes bytes off a terminal.</summary>
[SupportedOSPlatform("linux")]
internal static class TerminalTaker
{
    // A terminal hands out at most 4 KiB at once.
    private const int PieceBytes = 4096;

    /// <summary>Runs until the line is lost or the stop is set.</summary>
    /// <returns>Why it ended.</returns>
    internal static PortLostException TakeUntilLost(
        string port,
        FileHandle terminal,
        StopSignal stop,
        ReceivePipe received
    )
    {
        while (true)
        {
            var (seen, stopped) = Waiting.For(terminal, LinuxNumbers.PollIn, stop, Waiting.ForEver);
            if (stopped)
            {
                return new PortLostException(port, "it was closed.");
            }

            if (seen == 0)
            {
                continue;
            }

            var count = (int)LinuxCalls.Read(terminal, received.Room(PieceBytes).Span, PieceBytes);
            if (count > 0)
            {
                // Blocks while the reader is behind: the line itself then holds back.
                if (!received.FilledAsync(count).AsTask().GetAwaiter().GetResult())
                {
                    return new PortLostException(port, "it was closed.");
                }
            }
            else if (count == 0 || !IsPassing(Errno.Last) || (seen & LinuxNumbers.PollGone) != 0)
            {
                return new PortLostException(port, "it was unplugged, or the device behind it went away.");
            }
        }
    }

    internal static bool IsPassing(int errno) => errno is LinuxNumbers.TryAgain or LinuxNumbers.Interrupted;
}
