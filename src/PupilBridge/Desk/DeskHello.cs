using StreamJsonRpc;

namespace PupilBridge.Desk;

/// <summary>What both sides of the local socket say first.</summary>
/// <param name="Protocol">The version of what is spoken here; both must be equal.</param>
/// <param name="Program">The program's version, for messages.</param>
/// <param name="Process">The process number.</param>
public sealed record DeskHello(int Protocol, string Program, int Process)
{
    /// <summary>The version that this program speaks. It rises with every change that an older one would misread.</summary>
    public const int ProtocolSpoken = 1;

    /// <summary>This process's own hello.</summary>
    public static DeskHello Own { get; } =
        new(ProtocolSpoken, typeof(DeskHello).Assembly.GetName().Version?.ToString(3) ?? "?", Environment.ProcessId);
}

/// <summary>The first thing that is asked over the local socket. This part of the protocol never changes.</summary>
public interface IDeskGreeting
{
    /// <summary>Exchanges versions.</summary>
    /// <param name="hello">The command's version.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>The service's version.</returns>
    [JsonRpcMethod("pupilbridge.hello")]
    Task<DeskHello> HelloAsync(DeskHello hello, CancellationToken cancellationToken);
}
