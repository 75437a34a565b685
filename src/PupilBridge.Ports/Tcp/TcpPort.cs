using System.Net.Sockets;

namespace PupilBridge.Ports;

/// <summary>One TCP connection. Reads go straight to the socket, which ends them itself when it is closed.</summary>
internal sealed class TcpPort(string name, Socket socket) : IPort
{
    internal const string Closed = "it was closed.";

    private readonly WriteTurns turns = new();
    private readonly ReadGuard guard = new(name);
    private PortLostException? over;

    public string Name { get; } = name;

    internal bool IsOver => Volatile.Read(ref over) is not null;

    public async ValueTask<int> ReadAsync(Memory<byte> buffer)
    {
        guard.Enter(buffer);
        try
        {
            var count = IsOver ? 0 : await socket.ReceiveAsync(buffer).ConfigureAwait(false);
            return count > 0 ? count : throw Lost("the other side hung up.");
        }
        catch (Exception error) when (error is SocketException or ObjectDisposedException)
        {
            throw Lost($"the connection broke ({error.Message})", error);
        }
        finally
        {
            guard.Leave();
        }
    }

    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        await turns.TakeAsync().ConfigureAwait(false);
        try
        {
            using var timer = new CancellationTokenSource(limit);
            while (!bytes.IsEmpty && !IsOver)
            {
                bytes = bytes[await socket.SendAsync(bytes, timer.Token).ConfigureAwait(false)..];
            }
        }
        catch (OperationCanceledException)
        {
            Lose($"the other side took nothing for {limit.TotalSeconds:0.###} s.");
        }
        catch (Exception error) when (error is SocketException or ObjectDisposedException)
        {
            Lose($"the connection broke ({error.Message})", error);
        }
        finally
        {
            turns.Pass();
        }

        if (IsOver)
        {
            throw Lost(Closed);
        }
    }

    public void Close() => Lose(Closed);

    public ValueTask DisposeAsync()
    {
        Close();
        return ValueTask.CompletedTask;
    }

    private PortLostException Lost(string how, Exception? error = null)
    {
        var first = Lose(how, error);
        return new PortLostException(Name, first.How, first.InnerException);
    }

    /// <summary>Ends the connection; the first reason is the one that counts.</summary>
    private PortLostException Lose(string how, Exception? error = null)
    {
        var mine = new PortLostException(Name, how, error);
        var first = Interlocked.CompareExchange(ref over, mine, null) ?? mine;
        socket.Dispose();
        return first;
    }
}
