using System.Net.Sockets;

namespace PupilBridge.Ports;

/// <summary>Connects to a serial server, or to a stand-in instrument, over TCP.</summary>
internal sealed class TcpPortOpener(PortAddress address, PortSettings settings) : IPortOpener
{
    public string Name => address.Text;

    public async ValueTask<IPort> OpenAsync()
    {
        var (host, port) = address.TcpTarget;
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        try
        {
            using var limit = new CancellationTokenSource(settings.ConnectLimit);
            await socket.ConnectAsync(host, port, limit.Token).ConfigureAwait(false);
            return new TcpPort(Name, socket);
        }
        catch (Exception error) when (error is SocketException or OperationCanceledException)
        {
            socket.Dispose();
            throw Fault(host, error);
        }
    }

    private PortOpenException Fault(string host, Exception error)
    {
        var code = (error as SocketException)?.SocketErrorCode ?? SocketError.TimedOut;
        var (fault, what) = code switch
        {
            SocketError.ConnectionRefused => (
                PortOpenFault.Missing,
                "nobody listens there. Check that the instrument or its serial server is on, and the port number"
            ),
            SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => (
                PortOpenFault.Missing,
                $"there is no computer named '{host}'. Check the name"
            ),
            SocketError.AccessDenied => (PortOpenFault.Forbidden, "a firewall forbids it. Allow the connection"),
            SocketError.TimedOut or SocketError.HostUnreachable or SocketError.NetworkUnreachable => (
                PortOpenFault.NoDevice,
                $"no answer within {settings.ConnectLimit.TotalSeconds:0.#} s. Check the network and the address"
            ),
            _ => (PortOpenFault.Other, error.Message.TrimEnd('.')),
        };
        return new PortOpenException(Name, fault, $"The port {Name} could not be opened: {what}.", error);
    }
}
