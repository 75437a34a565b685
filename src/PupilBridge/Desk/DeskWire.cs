using System.Text.Json;
using System.Text.Json.Serialization;
using StreamJsonRpc;

namespace PupilBridge.Desk;

/// <summary>How calls are written on the local socket: JSON-RPC 2.0, each message after its length in four bytes.</summary>
internal static class DeskWire
{
    /// <summary>Joins a connection to JSON-RPC; nothing is read before <see cref="JsonRpc.StartListening"/>.</summary>
    /// <param name="connection">The connection.</param>
    /// <param name="maxIncomingBytes">The most bytes of one incoming message.</param>
    /// <returns>Both directions.</returns>
    public static JsonRpc Join(Stream connection, int maxIncomingBytes)
    {
        var limited = new FrameLimit(connection, maxIncomingBytes);
        var formatter = new SystemTextJsonFormatter { JsonSerializerOptions = Options() };
        return new JsonRpc(new LengthHeaderMessageHandler(limited, limited, formatter))
        {
            // A desk's refusal crosses as data; what is left are faults, of which only the message is of use.
            ExceptionStrategy = ExceptionProcessing.CommonErrorData,
            CancelLocallyInvokedMethodsWhenConnectionIsClosed = true,
        };
    }

    /// <summary>The other side's calls as an interface.</summary>
    /// <typeparam name="T">The interface; its methods are asynchronous.</typeparam>
    /// <param name="rpc">Both directions.</param>
    /// <returns>An object that sends each call to the other side.</returns>
    public static T Calls<T>(JsonRpc rpc)
        where T : class => rpc.Attach<T>();

    private static JsonSerializerOptions Options()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        options.Converters.Add(new JsonStringEnumConverter());
        return options;
    }
}
