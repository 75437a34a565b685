using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Callers who send too much, too slowly or too often (ASVS 5.0, 2.4.1, 5.2.1, 15.2.2): they are cut off, the others served.</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class GreedyCallerTests(AttackedService service)
{
    /// <summary>Beyond every limit of docs/sign-in.md, the server's own included.</summary>
    private const int TooMuch = 6 << 20;

    [Theory]
    [InlineData("/sign-in", "application/x-www-form-urlencoded")]
    [InlineData("/first-start", "application/x-www-form-urlencoded")]
    [InlineData("/account", "application/x-www-form-urlencoded")]
    [InlineData("/people", "application/x-www-form-urlencoded")]
    [InlineData("/keys", "application/x-www-form-urlencoded")]
    [InlineData("/outbox", "application/x-www-form-urlencoded")]
    [InlineData("/patients", "application/x-www-form-urlencoded")]
    [InlineData("/exams/1", "application/x-www-form-urlencoded")]
    [InlineData("/day", "multipart/form-data; boundary=x")]
    [InlineData("/face", "application/x-www-form-urlencoded")]
    [InlineData("/api/v1/entries", "application/json")]
    [InlineData("/api/v1/session/change", "application/json")]
    public async Task A_body_beyond_the_limit_is_refused_with_a_length_and_without(string path, string type)
    {
        foreach (var isChunked in new[] { false, true })
        {
            var visitor = await service.SignedInAsync(AttackedService.Examiner);
            var request = new HttpRequestMessage(HttpMethod.Post, path)
            {
                Content = new ByteArrayContent(Encoding.ASCII.GetBytes(new string('a', TooMuch))),
            };
            request.Content.Headers.ContentType = MediaTypeHeaderValue.Parse(type);
            request.Headers.TransferEncodingChunked = isChunked;
            request.Headers.Add("X-PupilBridge-Form", await visitor.FormTokenAsync());
            try
            {
                Assert.InRange((int)(await visitor.SendAsync(request)).Status, 400, 499);
            }
            catch (HttpRequestException)
            {
                // The service closed the connection while we still sent: refused all the same.
            }
        }

        await service.StandsAsync();
    }

    [Fact]
    public async Task JSON_nested_without_end_or_full_of_members_is_refused()
    {
        foreach (
            var body in new[]
            {
                string.Concat(Enumerable.Repeat("[", 100_000)),
                string.Concat(Enumerable.Repeat("{\"entry\":", 20_000)),
                "{" + string.Join(',', Enumerable.Range(0, 10_000).Select(n => $"\"a{n}\":1")) + "}",
                "{\"entry\":\"note\",\"$type\":\"System.Diagnostics.Process\",\"entryId\":\"x\"}",
                "\"entry\"",
                "null",
            }
        )
        {
            var visitor = await service.SignedInAsync(AttackedService.Examiner);
            var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/entries")
            {
                Content = new StringContent(body, Encoding.UTF8, "application/json"),
            };
            request.Headers.Add("X-PupilBridge-Form", await visitor.FormTokenAsync());
            Assert.InRange((int)(await visitor.SendAsync(request)).Status, 400, 413);
        }

        await service.StandsAsync();
    }

    [Fact]
    public async Task Forms_with_ten_thousand_fields_or_one_endless_name_are_refused()
    {
        foreach (
            var body in new[]
            {
                string.Join('&', Enumerable.Range(0, 10_000).Select(n => $"a{n}=1")),
                new string('k', 1 << 16) + "=1",
                string.Join('&', Enumerable.Repeat("who=a", 5_000)),
            }
        )
        {
            var visitor = await service.SignedInAsync(AttackedService.Examiner);
            var request = new HttpRequestMessage(HttpMethod.Post, "/patients")
            {
                Content = new StringContent(body, Encoding.UTF8, "application/x-www-form-urlencoded"),
            };
            Assert.InRange((int)(await visitor.SendAsync(request)).Status, 400, 499);
        }

        await service.StandsAsync();
    }

    [Fact]
    public async Task While_slow_callers_hold_half_a_request_each_the_others_are_served_and_the_slow_ones_cut_off()
    {
        var slow = new List<Socket>();
        try
        {
            for (var n = 0; n < 200; n++)
            {
                var socket = await service.Raw.OpenAsync();
                slow.Add(socket);
                // Half of them stay within their headers, half within a body of which one byte comes.
                var begun =
                    n % 2 == 0
                        ? $"GET /sign-in HTTP/1.1\r\nHost: {service.Host}\r\nX-Slow: "
                        : $"POST /sign-in HTTP/1.1\r\nHost: {service.Host}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000\r\n\r\nw";
                await socket.SendAsync(Encoding.ASCII.GetBytes(begun));
            }

            await service.StandsAsync();
            using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(2));
            var ends = await Task.WhenAll(slow.Select(socket => RawHttp.ReadAsync(socket, patience.Token)));
            Assert.All(ends, end => Assert.DoesNotContain("200 OK", end, StringComparison.Ordinal));
        }
        finally
        {
            slow.ForEach(socket => socket.Dispose());
        }

        await service.StandsAsync();
    }

    [Fact]
    public async Task Beyond_the_most_connections_a_new_one_is_closed_and_there_is_room_again_when_they_have_gone()
    {
        var open = new List<Socket>();
        try
        {
            for (var n = 0; n < 600; n++)
                open.Add(await service.Raw.OpenAsync());
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
            Assert.Equal("", await RawHttp.ReadAsync(open[^1], patience.Token));
        }
        finally
        {
            open.ForEach(socket => socket.Dispose());
        }

        await Eventually.Is(async () => await service.Raw.SendAsync(Plain()) is { Length: > 0 });
        await service.StandsAsync();
    }

    [Fact]
    public async Task A_reader_of_the_stream_who_never_reads_holds_up_nobody()
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        var deaf = new List<Socket>();
        try
        {
            for (var n = 0; n < 50; n++)
            {
                var socket = await service.Raw.OpenAsync();
                socket.ReceiveBufferSize = 1024;
                deaf.Add(socket);
                await socket.SendAsync(
                    Encoding.ASCII.GetBytes(
                        $"GET /api/v1/events HTTP/1.1\r\nHost: {service.Host}\r\nCookie: {visitor.Cookies}\r\n\r\n"
                    )
                );
            }

            await service.StandsAsync();
        }
        finally
        {
            deaf.ForEach(socket => socket.Dispose());
        }

        await service.StandsAsync();
    }

    private string Plain() => $"GET /sign-in HTTP/1.1\r\nHost: {service.Host}\r\nConnection: close\r\n\r\n";
}
