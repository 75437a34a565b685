using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace PupilBridge.Console.Tests.SignIn.Support;

/// <summary>A browser without a script: it keeps cookies and sends forms with what they hide.</summary>
internal sealed partial class Browser(Func<HttpClient> client)
{
    private readonly Dictionary<string, string> cookies = new(StringComparer.Ordinal);

    /// <summary>The cookies as they were set last, with their flags.</summary>
    public Dictionary<string, string> Set { get; } = new(StringComparer.Ordinal);

    public Answer Last { get; private set; } = null!;

    /// <summary>The cookies that it would send.</summary>
    public string Cookies => string.Join("; ", cookies.Select(one => $"{one.Key}={one.Value}"));

    /// <summary>Another browser with the same cookies, as one who copied them has.</summary>
    public Browser Copy()
    {
        var copy = new Browser(client);
        foreach (var (name, value) in cookies)
        {
            copy.cookies[name] = value;
        }

        return copy;
    }

    public Task<Answer> GetAsync(string path) => SendAsync(new HttpRequestMessage(HttpMethod.Get, path));

    /// <summary>Asks for a page, fills in a form of it and sends it.</summary>
    public async Task<Answer> SendFormAsync(string path, string form, params (string Field, string Value)[] typed)
    {
        var page = await GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, page.Status);
        return await SendAgainAsync(path, form, typed);
    }

    /// <summary>Fills in a form of the page that was answered last.</summary>
    public Task<Answer> SendAgainAsync(string path, string form, params (string Field, string Value)[] typed)
    {
        var token = Token().Match(Last.Text);
        Assert.True(token.Success, Last.Text);
        var fields = typed
            .Append(("_handler", form))
            .Append(("__RequestVerificationToken", WebUtility.HtmlDecode(token.Groups[1].Value)))
            .Select(pair => KeyValuePair.Create(pair.Item1, pair.Item2));
        return SendAsync(new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent(fields) });
    }

    public Task<Answer> SignInAsync(string who, string password, string path = "/sign-in") =>
        SendFormAsync(path, "sign-in", ("who", who), ("password", password));

    /// <summary>Sends JSON with a form token.</summary>
    public Task<Answer> PostAsync(string path, object body, string? token)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = JsonContent.Create(body) };
        if (token is not null)
        {
            request.Headers.Add("X-PupilBridge-Form", token);
        }

        return SendAsync(request);
    }

    /// <summary>Who is signed in, and the form token; asking is no activity.</summary>
    public async Task<(string? Who, string Token, DateTimeOffset? Until)> SessionAsync()
    {
        var answer = await GetAsync("/api/v1/session");
        using var json = JsonDocument.Parse(answer.Text);
        var root = json.RootElement;
        return (
            root.GetProperty("who").GetString(),
            root.GetProperty("formToken").GetString()!,
            root.GetProperty("until").ValueKind == JsonValueKind.Null
                ? null
                : root.GetProperty("until").GetDateTimeOffset()
        );
    }

    public async Task<string?> WhoAsync() => (await SessionAsync()).Who;

    public async Task<Answer> SendAsync(HttpRequestMessage request)
    {
        using (request)
        {
            if (cookies.Count > 0)
            {
                request.Headers.TryAddWithoutValidation("Cookie", Cookies);
            }

            using var http = client();
            using var answer = await http.SendAsync(request);
            foreach (var set in answer.Headers.TryGetValues("Set-Cookie", out var all) ? all : [])
            {
                Keep(set);
            }

            return Last = new Answer(
                answer.StatusCode,
                await answer.Content.ReadAsStringAsync(),
                Local(answer.Headers.Location),
                answer.Headers.Concat(answer.Content.Headers).ToDictionary(h => h.Key, h => string.Join(",", h.Value))
            );
        }
    }

    /// <summary>Where an answer leads: a path if it stays here, a whole address if it leads away.</summary>
    private static string? Local(Uri? location) =>
        location is null || !location.IsAbsoluteUri ? location?.ToString()
        : location is { Scheme: "http", Host: "localhost", Port: 80 } ? location.PathAndQuery
        : location.ToString();

    private void Keep(string set)
    {
        var pair = set.Split(';')[0].Split('=', 2);
        Set[pair[0]] = set;
        if (pair[1].Length == 0)
        {
            cookies.Remove(pair[0]);
        }
        else
        {
            cookies[pair[0]] = pair[1];
        }
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}

/// <summary>An answer of the console.</summary>
internal sealed record Answer(
    HttpStatusCode Status,
    string Text,
    string? Location,
    IReadOnlyDictionary<string, string> Headers
);
