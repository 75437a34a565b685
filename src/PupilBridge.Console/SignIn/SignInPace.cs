using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Http;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// How often a sign-in may be tried: per name and per address. It keeps a machine from trying passwords at the speed of a machine;
/// the lock after wrong ones does the rest.
/// </summary>
internal sealed class SignInPace : IDisposable
{
    /// <summary>Tries for one name in a minute.</summary>
    public const int PerName = 10;

    /// <summary>Tries from one address in a minute.</summary>
    public const int PerAddress = 30;

    private const int LongestName = 64;
    private static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private readonly PartitionedRateLimiter<string> names = Limiter(PerName);
    private readonly PartitionedRateLimiter<string> addresses = Limiter(PerAddress);

    /// <summary>Whether one more may be tried now.</summary>
    /// <param name="context">The request.</param>
    /// <param name="who">The name that was typed.</param>
    public bool MayTry(HttpContext context, string who)
    {
        var name = who.Trim().ToUpperInvariant();
        using var byAddress = addresses.AttemptAcquire($"{context.Connection.RemoteIpAddress}");
        using var byName = names.AttemptAcquire(name[..Math.Min(name.Length, LongestName)]);
        return byAddress.IsAcquired && byName.IsAcquired;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        names.Dispose();
        addresses.Dispose();
    }

    private static PartitionedRateLimiter<string> Limiter(int tries) =>
        PartitionedRateLimiter.Create<string, string>(
            key =>
                RateLimitPartition.GetFixedWindowLimiter(
                    key,
                    _ => new FixedWindowRateLimiterOptions
                    {
                        PermitLimit = tries,
                        Window = Window,
                        QueueLimit = 0,
                    }
                ),
            StringComparer.Ordinal
        );
}
