using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;
using PupilBridge.Browser.Served;

namespace PupilBridge.Measure.Load;

/// <summary>An examiner with the console open, who asks for a page and for all lanes again and again.</summary>
internal sealed partial class ConsoleVisitor(Uri address) : IDisposable
{
    private readonly HttpClient http = new(new SocketsHttpHandler { CookieContainer = new CookieContainer() })
    {
        BaseAddress = address,
        Timeout = TimeSpan.FromSeconds(30),
    };

    /// <summary>How long the page with the latest exams took, in milliseconds.</summary>
    public List<double> Page { get; } = [];

    /// <summary>How long the state of all lanes took, in milliseconds.</summary>
    public List<double> Lanes { get; } = [];

    public async Task SignInAsync(string who)
    {
        var form = await http.GetStringAsync("/sign-in");
        var token = WebUtility.HtmlDecode(Token().Match(form).Groups[1].Value);
        Dictionary<string, string> fields = new()
        {
            ["who"] = who,
            ["password"] = ServedConsole.Password,
            ["_handler"] = "sign-in",
            ["__RequestVerificationToken"] = token,
        };
        using var content = new FormUrlEncodedContent(fields);
        using var answer = await http.PostAsync("/sign-in", content);
        answer.EnsureSuccessStatusCode();
        if (!(await http.GetStringAsync("/api/v1/session")).Contains(who, StringComparison.Ordinal))
            throw new InvalidOperationException($"{who} is not signed in.");
    }

    /// <summary>Asks for both once a second until stopped.</summary>
    public async Task VisitAsync(CancellationToken stop)
    {
        using var second = new PeriodicTimer(TimeSpan.FromSeconds(1));
        try
        {
            while (await second.WaitForNextTickAsync(stop))
            {
                Page.Add(await TimeAsync("/exams"));
                Lanes.Add(await TimeAsync("/api/v1/lanes"));
            }
        }
        catch (OperationCanceledException)
        {
            // The load is over.
        }
    }

    public void Dispose() => http.Dispose();

    private async Task<double> TimeAsync(string path)
    {
        var begin = Stopwatch.GetTimestamp();
        using var answer = await http.GetAsync(path);
        await answer.Content.ReadAsByteArrayAsync();
        if (answer.StatusCode != HttpStatusCode.OK || answer.RequestMessage!.RequestUri!.AbsolutePath != path)
            throw new InvalidOperationException(
                $"{path} answered {answer.StatusCode} at {answer.RequestMessage!.RequestUri}."
            );
        return Stopwatch.GetElapsedTime(begin).TotalMilliseconds;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
