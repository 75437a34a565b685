using System.Globalization;
using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Who was signed in in this browser lately, in a sealed cookie. A lane keeps what was typed until it is recorded; after a change of
/// examiner it may send it still, under the name of who typed it.
/// </summary>
internal sealed class Seat(
    ConsoleSettings settings,
    IDataProtectionProvider protection,
    IPeopleDesk people,
    TimeProvider time
)
{
    private const int Most = 6;

    /// <summary>For how long after somebody left a seat what they typed there is still taken.</summary>
    private static readonly TimeSpan After = TimeSpan.FromHours(12);

    private readonly IDataProtector seal = protection.CreateProtector("PupilBridge.Console.Seat");

    private string Cookie => CookieNames.Of(settings, "pupilbridge-seat");

    /// <summary>Notes that somebody signs in.</summary>
    public void Note(HttpContext context, string who)
    {
        var now = time.GetUtcNow().ToUnixTimeSeconds();
        var kept = Lately(Leaving(Read(context), now))
            .Where(one => !one.Who.Equals(who, StringComparison.OrdinalIgnoreCase))
            .Prepend((Who: who, At: now))
            .Take(Most)
            .Select(one => $"{one.At.ToString(CultureInfo.InvariantCulture)} {one.Who}");
        context.Response.Cookies.Append(
            Cookie,
            seal.Protect(string.Join('\n', kept)),
            new CookieOptions
            {
                HttpOnly = true,
                IsEssential = true,
                Path = "/",
                SameSite = SameSiteMode.Strict,
                Secure = CookieNames.IsSecure(settings),
            }
        );
    }

    /// <summary>Who was signed in here lately and may still sign in, with the roles that they have now.</summary>
    public IReadOnlyList<Caller> Earlier(HttpContext? context) =>
        context is null
            ? []
            :
            [
                .. Lately(Read(context))
                    .Select(one => people.Find(one.Who))
                    .Where(person => person is { IsEnabled: true })
                    .Select(person => new Caller(person!.Who, person.Roles)),
            ];

    /// <summary>
    /// Whoever sat here last leaves now, or left when their session ended at the latest: what they typed just before is taken for as long as
    /// what anybody else left behind.
    /// </summary>
    private IEnumerable<(string Who, long At)> Leaving(IReadOnlyList<(string Who, long At)> kept, long now) =>
        kept.Select(
            (one, place) =>
                place == 0 ? one with { At = Math.Min(now, one.At + (long)settings.LongestSession.TotalSeconds) } : one
        );

    private IEnumerable<(string Who, long At)> Lately(IEnumerable<(string Who, long At)> kept)
    {
        var since = (time.GetUtcNow() - After).ToUnixTimeSeconds();
        return kept.Where(one => one.At >= since);
    }

    private List<(string Who, long At)> Read(HttpContext context)
    {
        if (context.Request.Cookies[Cookie] is not { Length: > 0 } kept)
        {
            return [];
        }

        try
        {
            return
            [
                .. seal.Unprotect(kept)
                    .Split('\n', StringSplitOptions.RemoveEmptyEntries)
                    .Select(line => line.Split(' ', 2))
                    .Select(parts => (Who: parts[1], At: long.Parse(parts[0], CultureInfo.InvariantCulture))),
            ];
        }
        catch (CryptographicException)
        {
            // Sealed with other keys, or by somebody else.
            return [];
        }
    }
}
