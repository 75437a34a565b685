using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;

namespace PupilBridge.Console.Layout;

/// <summary>
/// What the page after a form says about what was done. It waits in a cookie that only this service can write, and is said once.
/// </summary>
/// <param name="protection">Seals the words, so that no other page can put words into our mouth.</param>
/// <param name="requests">The request at hand.</param>
public sealed class Said(IDataProtectionProvider protection, IHttpContextAccessor requests)
{
    private const string Cookie = "pupilbridge-said";
    private const int MostCharacters = 900;
    private readonly IDataProtector seal = protection.CreateProtector("PupilBridge.Console.Said");

    /// <summary>Keeps words for the next page.</summary>
    /// <param name="words">The words.</param>
    public void Say(string words) =>
        requests.HttpContext!.Response.Cookies.Append(
            Cookie,
            seal.Protect(words.Length > MostCharacters ? words[..MostCharacters] + "…" : words),
            Options(TimeSpan.FromMinutes(2))
        );

    /// <summary>Takes the words; null if there are none.</summary>
    public string? Take()
    {
        if (requests.HttpContext is not { } context || context.Request.Cookies[Cookie] is not { Length: > 0 } kept)
        {
            return null;
        }

        if (!context.Response.HasStarted)
        {
            context.Response.Cookies.Delete(Cookie, Options(null));
        }

        try
        {
            return seal.Unprotect(kept);
        }
        catch (CryptographicException)
        {
            // Written by a service with other keys: nothing that could be said any more.
            return null;
        }
    }

    private CookieOptions Options(TimeSpan? age) =>
        new()
        {
            HttpOnly = true,
            IsEssential = true,
            MaxAge = age,
            Path = "/",
            SameSite = SameSiteMode.Strict,
            Secure = requests.HttpContext!.Request.IsHttps,
        };
}
