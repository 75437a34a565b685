using Microsoft.AspNetCore.Http;

namespace PupilBridge.Console.SignIn;

/// <summary>From where somebody signed in, so that they know it again in the list of their sessions.</summary>
/// <param name="Where">The serial number of a lane's instrument, or <c>console</c>.</param>
/// <param name="Address">The address that the request came from; null where it is not known.</param>
/// <param name="Browser">The browser.</param>
internal sealed record SessionPlace(string Where, string? Address = null, CallingBrowser? Browser = null)
{
    /// <summary>The place of everything that is no lane.</summary>
    public const string Console = "console";

    /// <summary>Where a request comes from.</summary>
    /// <param name="context">The request.</param>
    /// <param name="where">The serial number of a lane's instrument, or <c>console</c>.</param>
    public static SessionPlace Of(HttpContext context, string where)
    {
        var address = context.Connection.RemoteIpAddress;
        return new(
            where,
            (address is { IsIPv4MappedToIPv6: true } ? address.MapToIPv4() : address)?.ToString(),
            CallingBrowser.Of(context.Request.Headers.UserAgent)
        );
    }
}
