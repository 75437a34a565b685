using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace PupilBridge.Console.Hosting;

/// <summary>
/// What the web server takes from one caller, and from all together. They protect the readings: a caller who is slow, greedy or many must
/// not take threads, memory or file descriptors from the lines.
/// </summary>
internal static class ServerLimits
{
    /// <summary>Connections at once. A clinic has some tens of pages open, each with a stream; beyond this a new one is closed.</summary>
    public const int Connections = 512;

    /// <summary>The most bytes of any body; forms and entries have narrower limits of their own.</summary>
    public const long Body = 4 << 20;

    /// <summary>The most bytes of a request's headers together.</summary>
    public const int Headers = 16 << 10;

    /// <summary>How long the headers of one request may take.</summary>
    public static readonly TimeSpan HeadersWithin = TimeSpan.FromSeconds(10);

    /// <summary>How long a connection without a request is kept.</summary>
    public static readonly TimeSpan KeptFor = TimeSpan.FromSeconds(60);

    /// <summary>The fewest bytes a second that a body may come with, and an answer may be read with, once the grace is over.</summary>
    public static readonly MinDataRate Slowest = new(bytesPerSecond: 240, gracePeriod: TimeSpan.FromSeconds(5));

    /// <summary>Sets them.</summary>
    public static void Set(KestrelServerLimits limits)
    {
        limits.MaxConcurrentConnections = Connections;
        limits.MaxConcurrentUpgradedConnections = 0;
        limits.MaxRequestBodySize = Body;
        limits.MaxRequestHeadersTotalSize = Headers;
        limits.MaxRequestHeaderCount = 64;
        limits.RequestHeadersTimeout = HeadersWithin;
        limits.KeepAliveTimeout = KeptFor;
        limits.MinRequestBodyDataRate = Slowest;
        limits.MinResponseDataRate = Slowest;
    }
}
