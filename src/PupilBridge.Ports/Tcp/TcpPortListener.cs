using System.Net;
using System.Net.Sockets;

namespace PupilBridge.Ports;

/// <summary>
/// The instrument's side of a line over TCP: it listens, and serves one host at a time. A second host is hung up on at
/// once, since TCP has no word for "busy" before a connection stands.
/// </summary>
public sealed class TcpPortListener : IInstrumentSide
{
    private readonly Lock plug = new();
    private readonly IPEndPoint endPoint;
    private readonly ReceivePipe received;
    private readonly WriteTurns takers = new();
    private Socket? listener;
    private TcpPort? host;
    private bool closed;

    /// <summary>Starts to listen.</summary>
    /// <param name="port">The port number; 0 lets the system choose one.</param>
    /// <param name="address">The address to listen on; null for loopback, so that nobody else can reach it.</param>
    /// <exception cref="PortOpenException">The port number is in use or forbidden.</exception>
    public TcpPortListener(int port = 0, IPAddress? address = null)
    {
        endPoint = new IPEndPoint(address ?? IPAddress.Loopback, port);
        listener = Listen(endPoint);
        endPoint.Port = ((IPEndPoint)listener.LocalEndPoint!).Port;
        Address = PortAddress.Tcp(endPoint.Address.ToString(), endPoint.Port);
        received = new ReceivePipe(Name);
        _ = AcceptAsync(listener);
    }

    /// <inheritdoc/>
    public string Name => Address.Text;

    /// <inheritdoc/>
    public PortAddress Address { get; }

    /// <inheritdoc/>
    public bool IsPlugged
    {
        get
        {
            lock (plug)
            {
                return listener is not null;
            }
        }
    }

    /// <inheritdoc/>
    public bool HasHost => CurrentHost is not null;

    private TcpPort? CurrentHost
    {
        get
        {
            lock (plug)
            {
                return host is { IsOver: false } open ? open : null;
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

        try
        {
            if (CurrentHost is { } listening)
            {
                await listening.WriteAsync(bytes, limit).ConfigureAwait(false);
            }
        }
        catch (PortLostException how) when (how.InnerException is not null || how.How == TcpPort.Closed)
        {
            // The host hung up during the write, or the cable was pulled: the bytes are gone.
        }
    }

    /// <inheritdoc/>
    public void Unplug()
    {
        lock (plug)
        {
            listener?.Dispose();
            listener = null;
            host?.Close();
            host = null;
        }

        received.Interrupt();
    }

    /// <inheritdoc/>
    public void Replug()
    {
        lock (plug)
        {
            if (listener is null && !closed)
            {
                listener = Listen(endPoint);
                _ = AcceptAsync(listener);
            }
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

    private static Socket Listen(IPEndPoint endPoint)
    {
        var socket = new Socket(endPoint.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        try
        {
            socket.Bind(endPoint);
            socket.Listen();
            return socket;
        }
        catch (SocketException error)
        {
            socket.Dispose();
            var fault =
                error.SocketErrorCode == SocketError.AddressAlreadyInUse ? PortOpenFault.Busy
                : error.SocketErrorCode == SocketError.AccessDenied ? PortOpenFault.Forbidden
                : PortOpenFault.Other;
            var text = $"Cannot listen on {endPoint}: {error.Message}. Choose another port number.";
            throw new PortOpenException(endPoint.ToString(), fault, text, error);
        }
    }

    private async Task AcceptAsync(Socket listening)
    {
        try
        {
            while (true)
            {
                var socket = await listening.AcceptAsync().ConfigureAwait(false);
                socket.NoDelay = true;
                Admit(listening, new TcpPort(Name, socket));
            }
        }
        catch (Exception error) when (error is SocketException or ObjectDisposedException)
        {
            // Unplugged.
        }
    }

    private void Admit(Socket listening, TcpPort caller)
    {
        lock (plug)
        {
            if (listener != listening || host is { IsOver: false })
            {
                caller.Close();
                return;
            }

            host = caller;
        }

        _ = TakeAsync(caller);
    }

    private async Task TakeAsync(TcpPort caller)
    {
        var buffer = new byte[4096];
        await takers.TakeAsync().ConfigureAwait(false); // The last host's bytes go before this one's.
        try
        {
            while (true)
            {
                var count = await caller.ReadAsync(buffer).ConfigureAwait(false);
                buffer.AsMemory(0, count).CopyTo(received.Room(count));
                await received.FilledAsync(count).ConfigureAwait(false);
            }
        }
        catch (PortLostException)
        {
            // It hung up, or was hung up on.
        }
        finally
        {
            takers.Pass();
        }
    }
}
