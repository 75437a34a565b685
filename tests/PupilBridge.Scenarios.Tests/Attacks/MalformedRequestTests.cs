namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Requests that are none, or that two readers could read in two ways (ASVS 5.0, 4.2.1): refused, and the connection closed.</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class MalformedRequestTests(AttackedService service)
{
    private string Good => $"GET /sign-in HTTP/1.1\r\nHost: {service.Host}\r\nConnection: close\r\n\r\n";

    /// <summary>What is sent: HOST stands for the right host.</summary>
    public static TheoryData<string, string> Requests =>
        new()
        {
            { "no request at all", "\0\0\0\0\0\0\0\0\r\n\r\n" },
            { "binary", "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + "\r\n\r\n" },
            { "another protocol", "SSH-2.0-x\r\n\r\n" },
            { "HTTP of another version", "GET / HTTP/9.9\r\nHost: HOST\r\n\r\n" },
            { "no host", "GET /sign-in HTTP/1.1\r\n\r\n" },
            { "two hosts", "GET /sign-in HTTP/1.1\r\nHost: HOST\r\nHost: evil.example\r\n\r\n" },
            { "an empty host", "GET /sign-in HTTP/1.1\r\nHost:\r\n\r\n" },
            { "a host with a path", "GET /sign-in HTTP/1.1\r\nHost: HOST/x\r\n\r\n" },
            { "a blank before the colon", "GET /sign-in HTTP/1.1\r\nHost : HOST\r\n\r\n" },
            { "a folded header", "GET /sign-in HTTP/1.1\r\nHost: HOST\r\nX-A: 1\r\n 2\r\n\r\n" },
            { "a header without a name", "GET /sign-in HTTP/1.1\r\nHost: HOST\r\n: x\r\n\r\n" },
            { "a NUL in a header", "GET /sign-in HTTP/1.1\r\nHost: HOST\r\nX-A: a\0b\r\n\r\n" },
            { "a CR alone in a header", "GET /sign-in HTTP/1.1\r\nHost: HOST\r\nX-A: a\rX-B: b\r\n\r\n" },
            {
                "a target with a fragment of another host",
                "GET http://evil.example/sign-in HTTP/1.1\r\nHost: HOST\r\n\r\n"
            },
            {
                "length and chunks at once",
                "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nContent-Length: 6\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /people HTTP/1.1\r\nHost: HOST\r\n\r\n"
            },
            {
                "two lengths",
                "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nContent-Length: 0\r\nContent-Length: 44\r\n\r\nGET /people HTTP/1.1\r\nHost: HOST\r\n\r\n"
            },
            { "a length with a sign", "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nContent-Length: +5\r\n\r\nabcde" },
            { "a negative length", "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nContent-Length: -1\r\n\r\n" },
            {
                "a length beyond all numbers",
                "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nContent-Length: 99999999999999999999\r\n\r\n"
            },
            {
                "an encoding that is none",
                "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nTransfer-Encoding: xchunked\r\n\r\n0\r\n\r\n"
            },
            {
                "chunks wrapped once more",
                "POST /sign-in HTTP/1.1\r\nHost: HOST\r\nTransfer-Encoding: chunked, identity\r\n\r\n0\r\n\r\n"
            },
            {
                "chunks in HTTP/1.0",
                "POST /sign-in HTTP/1.0\r\nHost: HOST\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n"
            },
            { "a method with blanks", "GE T /sign-in HTTP/1.1\r\nHost: HOST\r\n\r\n" },
            { "a target with a NUL", "GET /exams/%00 HTTP/1.1\r\nHost: HOST\r\n\r\n" },
        };

    [Theory]
    [MemberData(nameof(Requests))]
    public async Task What_is_no_request_is_refused_and_hides_no_second_one(string what, string request)
    {
        var came = await service.Raw.SendAsync(
            request.Replace("HOST", service.Host, StringComparison.Ordinal) + (what == "binary" ? "" : "\r\n") + Good
        );
        var statuses = RawHttp.Statuses(came);
        // The request after it is our own and is answered with 200, or not at all; one hidden in a body would be answered with 302.
        Assert.True(statuses.Count <= 2 && statuses.Skip(1).All(status => status == 200), $"{what}: {came}");
        Assert.All(statuses.Take(1), status => Assert.InRange(status, 400, 505));
        Assert.DoesNotContain("Exception", came, StringComparison.Ordinal);
        await service.StandsAsync();
    }

    [Fact]
    public async Task A_chunk_of_no_size_ends_the_connection_before_what_it_hides_is_read()
    {
        var body = "zz\r\nGET /people HTTP/1.1\r\nHost: x\r\n\r\n0\r\n\r\n";
        var came = await service.Raw.SendAsync(
            $"POST /sign-in HTTP/1.1\r\nHost: {service.Host}\r\nTransfer-Encoding: chunked\r\nContent-Type: application/x-www-form-urlencoded\r\n\r\n{body}"
        );
        Assert.Equal(400, Assert.Single(RawHttp.Statuses(came)));
        await service.StandsAsync();
    }

    [Theory]
    [InlineData("TRACE")]
    [InlineData("CONNECT")]
    [InlineData("OPTIONS")]
    [InlineData("PROPFIND")]
    [InlineData("DEBUG")]
    [InlineData("PUT")]
    [InlineData("DELETE")]
    public async Task A_method_that_no_page_knows_changes_nothing_and_echoes_nothing(string method)
    {
        var came = await service.Raw.SendAsync(
            $"{method} /exams HTTP/1.1\r\nHost: {service.Host}\r\nX-Echo: do-not-echo\r\nContent-Length: 0\r\nConnection: close\r\n\r\n"
        );
        Assert.All(RawHttp.Statuses(came), status => Assert.InRange(status, 400, 505));
        Assert.DoesNotContain("do-not-echo", came, StringComparison.Ordinal);
        Assert.DoesNotContain("Access-Control", came, StringComparison.OrdinalIgnoreCase);
        await service.StandsAsync();
    }

    [Fact]
    public async Task Headers_without_end_are_cut_off()
    {
        foreach (
            var headers in new[]
            {
                $"X-Long: {new string('a', 64 << 10)}\r\n",
                string.Concat(Enumerable.Range(0, 2000).Select(n => $"X-{n}: a\r\n")),
            }
        )
        {
            var came = await service.Raw.SendAsync($"GET /sign-in HTTP/1.1\r\nHost: {service.Host}\r\n{headers}\r\n");
            Assert.All(RawHttp.Statuses(came), status => Assert.Equal(431, status));
        }

        var line = await service.Raw.SendAsync(
            $"GET /{new string('a', 64 << 10)} HTTP/1.1\r\nHost: {service.Host}\r\n\r\n"
        );
        Assert.All(RawHttp.Statuses(line), status => Assert.Equal(414, status));
        await service.StandsAsync();
    }

    [Fact]
    public async Task The_prior_knowledge_preface_of_another_HTTP_opens_nothing()
    {
        var came = await service.Raw.SendAsync("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n");
        Assert.DoesNotContain("200", came, StringComparison.Ordinal);
        await service.StandsAsync();
    }
}
