using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Writes bytes to the console's port that no HTTP library would write, and reads whatever comes back.</summary>
internal sealed class RawHttp(int port)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>Opens a connection and leaves it open.</summary>
    public async Task<Socket> OpenAsync()
    {
        var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        await socket.ConnectAsync(IPAddress.Loopback, port);
        return socket;
    }

    /// <summary>Sends text as Latin-1, byte by byte as it stands, and reads until the service closes or has said the whole answer.</summary>
    /// <returns>All that came; empty if the service closed without a word.</returns>
    public async Task<string> SendAsync(string request)
    {
        using var socket = await OpenAsync();
        using var patience = new CancellationTokenSource(Patience);
        try
        {
            await socket.SendAsync(Encoding.Latin1.GetBytes(request), patience.Token);
            return await ReadAsync(socket, patience.Token);
        }
        catch (SocketException)
        {
            // Closed while we still wrote: that is an answer, too.
            return "";
        }
    }

    /// <summary>Reads until the service closes.</summary>
    public static async Task<string> ReadAsync(Socket socket, CancellationToken cancellation)
    {
        var text = new StringBuilder();
        var bytes = new byte[16 << 10];
        try
        {
            while (await socket.ReceiveAsync(bytes, cancellation) is var count and > 0)
                text.Append(Encoding.Latin1.GetString(bytes, 0, count));
        }
        catch (SocketException)
        {
            // A reset is the end as well.
        }

        return text.ToString();
    }

    /// <summary>The status codes of all answers in what came, in order.</summary>
    public static IReadOnlyList<int> Statuses(string came) =>
        [
            .. came.Split("HTTP/1.1 ")
                .Skip(1)
                .Select(answer => int.Parse(answer[..3], NumberStyles.None, CultureInfo.InvariantCulture)),
        ];
}
