using System.Net;
using System.Net.Http.Headers;
using System.Text;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Other sites in an examiner's browser: DNS rebinding, forged forms, other origins (ASVS 5.0, 3.4.2, 3.5.1 to 3.5.3).</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class OriginTests(AttackedService service)
{
    [Theory]
    [InlineData("evil.example")]
    [InlineData("evil.example:PORT")]
    [InlineData("localhost.evil.example:PORT")]
    [InlineData("127.0.0.1.evil.example:PORT")]
    [InlineData("127.0.0.2:PORT")]
    [InlineData("0.0.0.0:PORT")]
    [InlineData("2130706433:PORT")]
    [InlineData("[::ffff:127.0.0.1]:PORT")]
    [InlineData("localhost.:PORT")]
    [InlineData("user@localhost:PORT")]
    public async Task Under_another_name_than_its_own_nothing_is_shown(string host)
    {
        var name = host.Replace("PORT", $"{service.Address.Port}", StringComparison.Ordinal);
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        var came = await service.Raw.SendAsync(
            $"GET /exams HTTP/1.1\r\nHost: {name}\r\nCookie: {visitor.Cookies}\r\nConnection: close\r\n\r\n"
        );
        Assert.Equal(400, Assert.Single(RawHttp.Statuses(came)));
        Assert.DoesNotContain("Q-10", came, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("X-Forwarded-Host: localhost")]
    [InlineData("X-Original-URL: /people")]
    [InlineData("Forwarded: host=localhost;proto=https")]
    [InlineData("X-HTTP-Method-Override: POST")]
    public async Task What_a_proxy_would_say_is_not_believed(string header)
    {
        var came = await service.Raw.SendAsync(
            $"GET /sign-in HTTP/1.1\r\nHost: evil.example\r\n{header}\r\nConnection: close\r\n\r\n"
        );
        Assert.Equal(400, Assert.Single(RawHttp.Statuses(came)));
        var own = await service.Raw.SendAsync(
            $"GET /sign-in HTTP/1.1\r\nHost: {service.Host}\r\n{header}\r\nConnection: close\r\n\r\n"
        );
        Assert.Equal(200, Assert.Single(RawHttp.Statuses(own)));
        Assert.Contains("sign-in", own, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("http://evil.example")]
    [InlineData("null")]
    [InlineData("https://HOST")]
    [InlineData("http://localhost:1")]
    [InlineData("http://HOST.evil.example")]
    public async Task A_form_of_another_origin_signs_nobody_in_and_a_script_of_one_enters_nothing(string origin)
    {
        var from = origin.Replace("HOST", service.Host, StringComparison.Ordinal);
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        var token = await visitor.FormTokenAsync();
        var entry = new HttpRequestMessage(HttpMethod.Post, "/api/v1/entries")
        {
            Content = new StringContent("{\"entry\":\"note\"}", Encoding.UTF8, "application/json"),
        };
        entry.Headers.Add("X-PupilBridge-Form", token);
        entry.Headers.Add("Origin", from);
        var answer = await visitor.SendAsync(entry);
        Assert.Equal(HttpStatusCode.Forbidden, answer.Status);
        var form = Visitor.Form("/sign-off", "sign-off", token);
        form.Headers.Add("Origin", from);
        Assert.Equal(HttpStatusCode.Forbidden, (await visitor.SendAsync(form)).Status);
        Assert.Equal(AttackedService.Examiner, await visitor.WhoAsync());
        await service.StandsAsync();
    }

    [Fact]
    public async Task Without_a_form_token_or_with_an_altered_one_no_form_does_anything()
    {
        var visitor = await service.SignedInAsync(AttackedService.Administrator);
        var other = await service.SignedInAsync(AttackedService.Examiner);
        foreach (var token in new[] { null, "", "CfDJ8" + new string('A', 120), await other.FormTokenAsync() })
        {
            (string, string)[] typed =
            [
                ("who", "EVIL"),
                ("role", "Administrator"),
                ("password", AttackedService.Password),
                ("again", AttackedService.Password),
                ("mine", AttackedService.Password),
            ];
            var answer = await visitor.SendAsync(Visitor.Form("/people", "add-person", token, typed));
            Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        }

        Assert.DoesNotContain("EVIL", (await visitor.GetAsync("/people")).Text, StringComparison.Ordinal);
        await service.StandsAsync();
    }

    [Fact]
    public async Task A_simple_request_that_needs_no_preflight_enters_nothing()
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        foreach (
            var type in new[] { "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x" }
        )
        {
            var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/entries")
            {
                Content = new ByteArrayContent("{\"entry\":\"note\"}"u8.ToArray()),
            };
            request.Content.Headers.ContentType = MediaTypeHeaderValue.Parse(type);
            Assert.Equal(HttpStatusCode.BadRequest, (await visitor.SendAsync(request)).Status);
        }

        await service.StandsAsync();
    }

    [Fact]
    public async Task No_answer_lets_another_origin_read_it()
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        foreach (var path in new[] { "/", "/exams", "/api/v1/session", "/api/v1/exams", "/assets/css/sign-in.css" })
        {
            var request = new HttpRequestMessage(HttpMethod.Get, path);
            request.Headers.Add("Origin", "http://evil.example");
            var answer = await visitor.SendAsync(request);
            Assert.DoesNotContain(
                answer.Headers.Keys,
                name => name.StartsWith("Access-Control-", StringComparison.OrdinalIgnoreCase)
            );
            Assert.Equal("same-origin", answer.Headers["Cross-Origin-Resource-Policy"]);
        }
    }

    [Fact]
    public async Task After_a_sign_in_nobody_is_led_to_another_site()
    {
        foreach (
            var then in new[]
            {
                "https://evil.example/",
                "//evil.example/",
                "/\\evil.example",
                "/%0d%0aLocation:%20https://evil.example",
                "javascript:alert(1)",
            }
        )
        {
            using var visitor = service.Visit();
            var answer = await visitor.SendFormAsync(
                $"/sign-in?then={then}",
                "sign-in",
                ("who", "F5"),
                ("password", AttackedService.Password)
            );
            Assert.Equal(HttpStatusCode.Redirect, answer.Status);
            var to = new Uri(service.Address, answer.Location);
            Assert.Equal(service.Address.Authority, to.Authority);
            Assert.Equal("/", to.AbsolutePath);
        }
    }
}
