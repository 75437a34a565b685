using System.Net;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Cookies that were copied, altered or made up, and keys in the wrong place (ASVS 5.0, chapters 3.3, 7 and 9).</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class SessionAttackTests(AttackedService service)
{
    [Fact]
    public async Task A_cookie_that_was_copied_opens_nothing_after_its_owner_signed_off()
    {
        using var visitor = await service.FreshAsync("F1");
        var copied = visitor.Cookies;
        Assert.Equal(200, await StatusAsync("/exams", copied));
        await visitor.SendFormAsync("/sign-off", "sign-off");
        Assert.Equal(302, await StatusAsync("/exams", copied));
        Assert.Equal(401, await StatusAsync("/api/v1/exams", copied));
    }

    [Fact]
    public async Task Each_sign_in_begins_a_session_of_its_own_and_ends_the_one_before_it_there()
    {
        using var visitor = await service.FreshAsync("F2");
        var before = visitor.Cookies;
        await visitor.SignInAsync(AttackedService.Clinician, AttackedService.Password);
        Assert.NotEqual(before, visitor.Cookies);
        Assert.Equal(302, await StatusAsync("/exams", before));
        Assert.Equal(200, await StatusAsync("/review", visitor.Cookies));
    }

    [Fact]
    public async Task A_cookie_altered_anywhere_opens_nothing()
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        var cookie = visitor.Jar.GetCookies(service.Address)["pupilbridge"]!.Value;
        for (var at = 0; at < cookie.Length; at += 17)
        {
            var altered = cookie[..at] + (cookie[at] == 'A' ? 'B' : 'A') + cookie[(at + 1)..];
            Assert.Equal(302, await StatusAsync("/exams", $"pupilbridge={altered}"));
        }

        foreach (var made in new[] { "", "a", new string('A', 4000), "CfDJ8", "{\"who\":\"AB\"}" })
            Assert.Equal(302, await StatusAsync("/exams", $"pupilbridge={made}"));
        await service.StandsAsync();
    }

    [Fact]
    public async Task A_form_token_is_no_session()
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        var token = visitor.Jar.GetCookies(service.Address)["pupilbridge-form"]!.Value;
        Assert.Equal(302, await StatusAsync("/exams", $"pupilbridge={token}"));
    }

    [Fact]
    public async Task A_session_of_ones_own_choice_is_not_taken_over_at_the_sign_in()
    {
        using var visitor = service.Visit();
        visitor.Jar.Add(service.Address, new Cookie("pupilbridge", "chosen-by-somebody-else"));
        await visitor.SignInAsync("F3", AttackedService.Password);
        Assert.NotEqual("chosen-by-somebody-else", visitor.Jar.GetCookies(service.Address)["pupilbridge"]!.Value);
        Assert.Equal(302, await StatusAsync("/exams", "pupilbridge=chosen-by-somebody-else"));
    }

    [Theory]
    [InlineData("/api/v1/exams?key=KEY")]
    [InlineData("/api/v1/exams?access_token=KEY")]
    [InlineData("/api/v1/exams?authorization=Bearer%20KEY")]
    public async Task A_key_in_an_address_opens_nothing(string path) =>
        Assert.Equal(401, await StatusAsync(path.Replace("KEY", service.Key, StringComparison.Ordinal), ""));

    [Fact]
    public async Task A_key_opens_no_page_and_nothing_beyond_its_scopes_and_no_other_spelling_of_it_anything()
    {
        var bearer = $"Authorization: Bearer {service.Key}";
        Assert.Equal(200, await StatusAsync("/api/v1/exams", "", bearer));
        Assert.Equal(302, await StatusAsync("/exams", "", bearer));
        Assert.Equal(302, await StatusAsync("/people", "", bearer));
        Assert.Equal(403, await StatusAsync("/api/v1/events", "", bearer));
        foreach (
            var wrong in new[]
            {
                $"Bearer {service.Key[..^1]}",
                $"Bearer {service.Key}x",
                $"Bearer {service.Key.ToUpperInvariant()}",
                $"Basic {service.Key}",
                "Bearer",
                "Bearer ",
                $"Bearer {service.Key}, Bearer {service.Key}",
            }
        )
            Assert.Equal(401, await StatusAsync("/api/v1/exams", "", $"Authorization: {wrong}"));
        await service.StandsAsync();
    }

    [Fact]
    public async Task Roles_cannot_be_sent_along()
    {
        var visitor = await service.SignedInAsync(AttackedService.Technician);
        foreach (var path in new[] { "/exams", "/people", "/review", "/api/v1/exams?role=Administrator" })
        {
            var status = await StatusAsync(path, visitor.Cookies + "; role=Administrator", "X-Role: Administrator");
            Assert.Equal(403, status);
        }
    }

    [Fact]
    public async Task What_is_shown_of_patients_is_kept_by_no_cache_and_cookies_are_held_to_this_site()
    {
        var visitor = await service.SignedInAsync(AttackedService.Clinician);
        foreach (var path in new[] { "/", "/exams", "/patients", "/review", "/day", "/account", "/api/v1/exams" })
        {
            var answer = await visitor.GetAsync(path);
            Assert.Equal(HttpStatusCode.OK, answer.Status);
            Assert.Equal("no-store", answer.Headers["Cache-Control"]);
            Assert.Equal("nosniff", answer.Headers["X-Content-Type-Options"]);
            Assert.Equal("same-origin", answer.Headers["Referrer-Policy"]);
            var policy = answer.Headers["Content-Security-Policy"];
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.Contains("camera=()", answer.Headers["Permissions-Policy"], StringComparison.Ordinal);
        }

        using var fresh = service.Visit();
        var signedIn = await fresh.SignInAsync("F4", AttackedService.Password);
        Assert.Contains("httponly", signedIn.Headers["Set-Cookie"], StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", signedIn.Headers["Set-Cookie"], StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("domain=", signedIn.Headers["Set-Cookie"], StringComparison.OrdinalIgnoreCase);
    }

    private async Task<int> StatusAsync(string path, string cookies, string header = "X-None: 1")
    {
        var came = await service.Raw.SendAsync(
            $"GET {path} HTTP/1.1\r\nHost: {service.Host}\r\nCookie: {cookies}\r\n{header}\r\nConnection: close\r\n\r\n"
        );
        return Assert.Single(RawHttp.Statuses(came));
    }
}
