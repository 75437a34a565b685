using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>Puts bytes onto a terminal that does not block.</summary>
[SupportedOSPlatform("linux")]
internal sealed class TerminalSender(string port, FileHandle terminal, StopSignal stop)
{
    // At 115,200 baud 250 ms carry 24 of the longest lines: enough for a last acknowledgement.
    private static readonly TimeSpan DrainLimit = TimeSpan.FromMilliseconds(250);

    private readonly WriteTurns turns = new();
    private readonly TimeProvider time = TimeProvider.System;

    /// <summary>Sends all bytes.</summary>
    /// <exception cref="PortLostException">The line is gone or did not take them in time.</exception>
    internal async ValueTask SendAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        var started = time.GetTimestamp();
        await turns.TakeAsync().ConfigureAwait(false);
        try
        {
            var rest = bytes[Push(bytes.Span)..];
            if (!rest.IsEmpty)
            {
                await Task.Run(() => PushWaiting(rest, started, limit)).ConfigureAwait(false);
            }
        }
        catch (ObjectDisposedException error)
        {
            throw new PortLostException(port, "it ended during a write.", error);
        }
        finally
        {
            turns.Pass();
        }
    }

    /// <summary>Gives what was written a moment to leave the device.</summary>
    internal async ValueTask DrainAsync()
    {
        var started = time.GetTimestamp();
        try
        {
            while (TerminalOpening.Unsent(terminal) > 0 && time.GetElapsedTime(started) < DrainLimit)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(5)).ConfigureAwait(false);
            }
        }
        catch (ObjectDisposedException)
        {
            // Gone meanwhile: nothing left to wait for.
        }
    }

    private void PushWaiting(ReadOnlyMemory<byte> rest, long started, TimeSpan limit)
    {
        while (!rest.IsEmpty)
        {
            var left = limit - time.GetElapsedTime(started);
            if (left <= TimeSpan.Zero)
            {
                throw new PortLostException(port, $"it took no more bytes for {limit.TotalSeconds:0.###} s.");
            }

            var ms = (int)Math.Min(Math.Ceiling(left.TotalMilliseconds), int.MaxValue);
            if (Waiting.For(terminal, LinuxNumbers.PollOut, stop, ms).Stopped)
            {
                throw new PortLostException(port, "it was closed during a write.");
            }

            rest = rest[Push(rest.Span)..];
        }
    }

    private int Push(ReadOnlySpan<byte> bytes)
    {
        var sent = 0;
        while (sent < bytes.Length)
        {
            var rest = bytes[sent..];
            var count = LinuxCalls.Write(terminal, rest, (nuint)rest.Length);

            if (count > 0)
            {
                sent += (int)count;
            }
            else if (count == 0 || Errno.Last == LinuxNumbers.TryAgain)
            {
                break;
            }
            else if (Errno.Last != LinuxNumbers.Interrupted)
            {
                throw new PortLostException(port, $"a write failed ({Errno.LastText}).");
            }
        }

        return sent;
    }
}
