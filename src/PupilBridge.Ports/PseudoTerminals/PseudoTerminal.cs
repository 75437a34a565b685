using System.Runtime.Versioning;

namespace PupilBridge.Ports;

/// <summary>
/// A serial line that the kernel makes up: this object is the instrument's side, and any program can open the other as
/// a serial device. A symbolic link plays the name that stays the same while each replug makes a new device.
/// </summary>
[SupportedOSPlatform("linux")]
public sealed class PseudoTerminal : IInstrumentSide
{
    private readonly Lock plug = new();
    private readonly ReceivePipe received;
    private readonly WriteTurns turns = new();
    private readonly LinePace writePace;
    private readonly LinePace readPace;
    private PluggedPair? pair;
    private bool closed;

    /// <summary>Makes the line and plugs it in.</summary>
    /// <param name="linkPath">
    /// Where the link goes, a full path; an earlier link there is replaced, anything else is not. Null for none: then
    /// the address is that of the first device, and replugging changes what answers there.
    /// </param>
    /// <param name="paceBaud">The speed that both directions are held to, in bits a second; null for as fast as can be.</param>
    /// <exception cref="PortOpenException">The system gave no pseudo-terminal, or something else is in the link's place.</exception>
    public PseudoTerminal(string? linkPath = null, int? paceBaud = null)
    {
        LinkPath = linkPath;
        writePace = new LinePace(paceBaud, TimeProvider.System);
        readPace = new LinePace(paceBaud, TimeProvider.System);
        received = new ReceivePipe(linkPath ?? "pseudo-terminal");
        Replug();
        Address = PortAddress.Parse(linkPath ?? DevicePath!);
    }

    /// <inheritdoc/>
    public string Name => Address.Text;

    /// <inheritdoc/>
    public PortAddress Address { get; }

    /// <summary>The link; null for none.</summary>
    public string? LinkPath { get; }

    /// <summary>The device that hosts open at this moment, for example <c>/dev/pts/5</c>; null while unplugged.</summary>
    public string? DevicePath => Current?.DevicePath;

    /// <inheritdoc/>
    public bool IsPlugged => Current is not null;

    /// <inheritdoc/>
    public bool HasHost => Current?.HasHost ?? false;

    private PluggedPair? Current
    {
        get
        {
            lock (plug)
            {
                return pair;
            }
        }
    }

    /// <inheritdoc/>
    public ValueTask<int> ReadAsync(Memory<byte> buffer) => received.ReadAsync(buffer);

    /// <inheritdoc/>
    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        if (received.IsClosed)
        {
            throw new PortLostException(Name, "it was closed.");
        }

        await turns.TakeAsync().ConfigureAwait(false);
        try
        {
            while (!bytes.IsEmpty)
            {
                var piece = bytes[..writePace.Piece(bytes.Length)];
                await writePace.PassAsync(piece.Length).ConfigureAwait(false);
                if (Current is { } plugged)
                {
                    await plugged.SendAsync(Name, piece, limit).ConfigureAwait(false);
                }

                bytes = bytes[piece.Length..];
            }
        }
        finally
        {
            turns.Pass();
        }
    }

    /// <inheritdoc/>
    public void Unplug()
    {
        lock (plug)
        {
            if (pair is { } last)
            {
                pair = null;
                StableLink.Remove(LinkPath, last.DevicePath);
                last.Dispose();
            }
        }
    }

    /// <inheritdoc/>
    public void Replug()
    {
        lock (plug)
        {
            if (pair is not null || closed)
            {
                return;
            }

            var next = PluggedPair.Make(received, readPace);
            try
            {
                StableLink.Point(LinkPath, next.DevicePath);
            }
            catch
            {
                next.Dispose();
                throw;
            }

            pair = next;
        }
    }

    /// <inheritdoc/>
    public void Close()
    {
        lock (plug)
        {
            closed = true;
        }

        received.Close();
        Unplug();
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        Close();
        return ValueTask.CompletedTask;
    }
}
