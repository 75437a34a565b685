using System.Runtime.Versioning;
using System.Text;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>
/// One pseudo-terminal from plugging in to pulling out. A thread takes what hosts write, and throws away what no host
/// has read when the last one leaves, so that the next one does not meet stale bytes.
/// </summary>
/// <remarks>
/// While no host has the device open, the master shows a permanent hang-up, which is the one truthful sign of that. So
/// this side keeps no descriptor of the device open; and instead of waiting on the master, which would spin, the thread
/// then waits for a notice (inotify) that the device was opened.
/// </remarks>
[SupportedOSPlatform("linux")]
internal sealed class PluggedPair : IDisposable
{
    private const int PieceBytes = 4096;

    // The setting of the pair itself; a host sets its own speed, which a pseudo-terminal only remembers.
    private const int FirstBaud = PortSettings.DefaultBaud;

    private readonly FileHandle master;
    private readonly FileHandle openings;
    private readonly StopSignal stop = new();
    private readonly ReceivePipe received;
    private readonly LinePace readPace;
    private readonly Thread taker;

    // Held while this side has the device open itself, so that its own opening is never taken for a host.
    private readonly Lock ownOpening = new();

    private PluggedPair(FileHandle master, FileHandle openings, string devicePath, ReceivePipe received, LinePace pace)
    {
        this.master = master;
        this.openings = openings;
        DevicePath = devicePath;
        this.received = received;
        readPace = pace;
        taker = new Thread(Take, 256 * 1024) { IsBackground = true, Name = "pseudo-terminal " + devicePath };
        taker.Start();
    }

    internal string DevicePath { get; }

    internal bool HasHost
    {
        get
        {
            lock (ownOpening)
            {
                return !IsHungUp();
            }
        }
    }

    internal static PluggedPair Make(ReceivePipe received, LinePace pace)
    {
        FileHandle? master = null;
        FileHandle? openings = null;
        try
        {
            master = Errno.Checked(
                LinuxCalls.OpenPseudoTerminal(
                    LinuxNumbers.OpenReadWrite
                        | LinuxNumbers.OpenNoControllingTerminal
                        | LinuxNumbers.OpenNonBlocking
                        | LinuxNumbers.OpenCloseOnExec
                ),
                "posix_openpt"
            );
            Errno.Checked(LinuxCalls.Grant(master), "grantpt");
            Errno.Checked(LinuxCalls.Unlock(master), "unlockpt");
            var device = SlaveName(master);
            if (TerminalMode.SetRaw(master, FirstBaud) is not 0 and var error)
            {
                throw new IOException($"The system refused to set the pseudo-terminal to raw (error {error}).");
            }

            openings = Errno.Checked(
                LinuxCalls.InotifyInit(LinuxNumbers.OpenNonBlocking | LinuxNumbers.OpenCloseOnExec),
                "inotify_init1"
            );
            Errno.Checked(LinuxCalls.InotifyAddWatch(openings, device, LinuxNumbers.WatchOpen), "inotify_add_watch");
            DiscardUnread(device); // Having been opened once, the master shows from here on when no host is there.
            return new PluggedPair(master, openings, device, received, pace);
        }
        catch (IOException error)
        {
            master?.Dispose();
            openings?.Dispose();
            var text = $"No pseudo-terminal could be made: {error.Message} Is /dev/pts mounted, with numbers left?";
            throw new PortOpenException("pseudo-terminal", PortOpenFault.Other, text, error);
        }
    }

    /// <summary>Sends to the host; without one, the bytes are gone.</summary>
    /// <exception cref="PortLostException">A host is there and does not read.</exception>
    internal async ValueTask SendAsync(string port, ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        if (!HasHost)
        {
            return;
        }

        try
        {
            await new TerminalSender(port, master, stop).SendAsync(bytes, limit).ConfigureAwait(false);
        }
        catch (PortLostException) when (stop.IsSet || !HasHost)
        {
            // Pulled, or the host went, during the write.
        }

        if (!stop.IsSet)
        {
            // The host may have gone before the write: then the bytes lie where the next host would read them.
            DiscardUnreadWithoutHost();
        }
    }

    /// <summary>Pulls the cable: every host sees a hang-up.</summary>
    public void Dispose()
    {
        stop.Set();
        received.Interrupt();
        taker.Join();
    }

    private void DiscardUnreadWithoutHost()
    {
        lock (ownOpening)
        {
            if (IsHungUp()) // Otherwise the next host is there already, and what lies unread may be meant for it.
            {
                DiscardUnread(DevicePath);
            }
        }
    }

    private static void DiscardUnread(string device)
    {
        using var host = LinuxCalls.Open(device, LinuxNumbers.OpenTerminal);
        if (!host.IsInvalid)
        {
            _ = LinuxCalls.Flush(host, LinuxNumbers.FlushInput);
        }
    }

    private static unsafe string SlaveName(FileHandle master)
    {
        const int longest = 128;
        var name = stackalloc byte[longest];
        var error = LinuxCalls.SlaveName(master, name, longest);
        return error == 0
            ? Encoding.UTF8.GetString(name, new ReadOnlySpan<byte>(name, longest).IndexOf((byte)0))
            : throw new IOException($"The system did not name the pseudo-terminal (error {error}).");
    }

    private bool IsHungUp()
    {
        try
        {
            return (Waiting.Now(master, 0) & LinuxNumbers.PollHangUp) != 0;
        }
        catch (ObjectDisposedException)
        {
            return true;
        }
    }

    private void Take()
    {
        try
        {
            var hadHost = false;
            while (!stop.IsSet)
            {
                hadHost = IsHungUp() ? AwaitHost(hadHost) : TakeFromHost();
            }
        }
        finally
        {
            openings.Dispose();
            master.Dispose();
            stop.Dispose();
        }
    }

    private bool TakeFromHost()
    {
        var (seen, stopped) = Waiting.For(master, LinuxNumbers.PollIn, stop, Waiting.ForEver);
        if (!stopped && (seen & LinuxNumbers.PollIn) != 0)
        {
            TakePiece();
        }

        return true;
    }

    private bool AwaitHost(bool hadHost)
    {
        while (TakePiece())
        {
            // What the last host wrote before it left still counts.
        }

        if (hadHost)
        {
            DiscardUnreadWithoutHost();
        }

        Waiting.For(openings, LinuxNumbers.PollIn, stop, Waiting.ForEver);
        Span<byte> notices = stackalloc byte[PieceBytes];
        _ = LinuxCalls.Read(openings, notices, PieceBytes);
        return false;
    }

    private bool TakePiece()
    {
        var most = readPace.Piece(PieceBytes);
        var count = (int)LinuxCalls.Read(master, received.Room(most).Span, (nuint)most);
        if (count <= 0)
        {
            return false;
        }

        var paced = readPace.Reserve(count);
        if (paced > TimeSpan.Zero)
        {
            Waiting.For(openings, 0, stop, (int)Math.Ceiling(paced.TotalMilliseconds));
        }

        // Blocks while the instrument is behind. An interruption is a pulled cable; the bytes have crossed even so.
        received.FilledAsync(count).AsTask().GetAwaiter().GetResult();
        return !stop.IsSet;
    }
}
