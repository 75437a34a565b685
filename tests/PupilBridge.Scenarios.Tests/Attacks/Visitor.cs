using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>A browser without a script before the real console: it keeps cookies, follows nothing, and sends what it is told.</summary>
internal sealed partial class Visitor : IDisposable
{
    private static int visitors;
    private readonly HttpClient client;

    public Visitor(Uri address)
    {
        Address = address;
        client = new HttpClient(
            new SocketsHttpHandler
            {
                CookieContainer = Jar,
                AllowAutoRedirect = false,
                ConnectCallback = FromOwnAddressAsync,
            }
        )
        {
            BaseAddress = address,
            Timeout = TimeSpan.FromSeconds(60),
        };
    }

    /// <summary>Each visitor calls from an address of its own, since an address may try thirty sign-ins a minute.</summary>
    public IPAddress Own { get; } = new([127, 0, 1, (byte)(1 + Interlocked.Increment(ref visitors) % 250)]);

    public Uri Address { get; }

    public CookieContainer Jar { get; } = new();

    /// <summary>The cookies as a header.</summary>
    public string Cookies => Jar.GetCookieHeader(Address);

    public Task<Heard> GetAsync(string path) => SendAsync(new HttpRequestMessage(HttpMethod.Get, path));

    public async Task<Heard> SendAsync(HttpRequestMessage request)
    {
        using (request)
        using (var answer = await client.SendAsync(request))
        {
            return new Heard(
                answer.StatusCode,
                await answer.Content.ReadAsStringAsync(),
                answer.Headers.Location?.ToString(),
                answer
                    .Headers.Concat(answer.Content.Headers)
                    .ToDictionary(h => h.Key, h => string.Join(", ", h.Value), StringComparer.OrdinalIgnoreCase)
            );
        }
    }

    /// <summary>Asks for a page, fills in a form of it and sends it.</summary>
    public async Task<Heard> SendFormAsync(string path, string form, params (string Field, string Value)[] typed)
    {
        var token = Token().Match((await GetAsync(path)).Text);
        Assert.True(token.Success, $"{path} has no form");
        return await SendAsync(Form(path, form, WebUtility.HtmlDecode(token.Groups[1].Value), typed));
    }

    public Task<Heard> SignInAsync(string who, string password) =>
        SendFormAsync("/sign-in", "sign-in", ("who", who), ("password", password));

    /// <summary>Who is signed in; null for nobody.</summary>
    public async Task<string?> WhoAsync()
    {
        using var json = JsonDocument.Parse((await GetAsync("/api/v1/session")).Text);
        return json.RootElement.GetProperty("who").GetString();
    }

    /// <summary>The form token for the web API.</summary>
    public async Task<string> FormTokenAsync()
    {
        using var json = JsonDocument.Parse((await GetAsync("/api/v1/session")).Text);
        return json.RootElement.GetProperty("formToken").GetString()!;
    }

    public static HttpRequestMessage Form(
        string path,
        string form,
        string? token,
        params (string Field, string Value)[] typed
    )
    {
        var fields = typed.Append(("_handler", form));
        if (token is not null)
            fields = fields.Append(("__RequestVerificationToken", token));
        return new HttpRequestMessage(HttpMethod.Post, path)
        {
            Content = new FormUrlEncodedContent(fields.Select(pair => KeyValuePair.Create(pair.Item1, pair.Item2))),
        };
    }

    public void Dispose() => client.Dispose();

    private async ValueTask<Stream> FromOwnAddressAsync(
        SocketsHttpConnectionContext context,
        CancellationToken cancellation
    )
    {
        var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        socket.Bind(new IPEndPoint(Own, 0));
        await socket.ConnectAsync(IPAddress.Loopback, context.DnsEndPoint.Port, cancellation);
        return new NetworkStream(socket, ownsSocket: true);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}

/// <summary>An answer.</summary>
internal sealed record Heard(
    HttpStatusCode Status,
    string Text,
    string? Location,
    IReadOnlyDictionary<string, string> Headers
);
