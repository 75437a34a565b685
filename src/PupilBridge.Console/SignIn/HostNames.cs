using System.Net;
using Microsoft.AspNetCore.Http;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// By which names browsers may call the console: those of loopback, the address it listens on, and those of the settings. Any other
/// name is that of somebody else's page, which had itself resolved to this machine.
/// </summary>
/// <remarks>Headers by which a proxy claims another name, address or scheme are not read at all.</remarks>
internal sealed class HostNames(ConsoleSettings settings)
{
    private readonly HashSet<string> names = new(
        ["localhost", "127.0.0.1", "[::1]", .. settings.Hosts, .. OwnAddress(settings)],
        StringComparer.OrdinalIgnoreCase
    );

    /// <summary>Refuses requests under any other name.</summary>
    public Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        if (names.Contains(context.Request.Host.Host))
        {
            return next(context);
        }

        context.Response.StatusCode = StatusCodes.Status400BadRequest;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(SignInText.Words["Host.Unknown"]);
    }

    private static string[] OwnAddress(ConsoleSettings settings) =>
        IPAddress.TryParse(settings.Address, out var address) && !IsEvery(address)
            ? [address.AddressFamily == System.Net.Sockets.AddressFamily.InterNetworkV6 ? $"[{address}]" : $"{address}"]
            : [];

    private static bool IsEvery(IPAddress address) =>
        address.Equals(IPAddress.Any) || address.Equals(IPAddress.IPv6Any);
}
