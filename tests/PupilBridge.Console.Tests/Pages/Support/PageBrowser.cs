using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.Tests.Hosting;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>A browser without a script over the console in this process: it keeps cookies, follows ways and sends forms.</summary>
internal sealed class PageBrowser : IDisposable
{
    private const ClinicRole Everything =
        ClinicRole.Examiner | ClinicRole.Clinician | ClinicRole.Technician | ClinicRole.Administrator;

    private readonly ConsoleInProcess console;
    private readonly CookieContainer cookies = new();
    private readonly Uri home = new("http://localhost/");

    public PageBrowser(
        ClinicRole roles = Everything,
        Func<ConsoleSettings, ConsoleSettings>? adapt = null,
        TimeProvider? time = null
    )
    {
        Roles = roles;
        console = new ConsoleInProcess(
            adapt,
            desks => desks with { Clinic = House, Lanes = House, Records = House, Bench = House },
            SignedInForTests.Add,
            time
        );
    }

    public SampleHouse House { get; } = new();

    public ClinicRole Roles { get; set; }

    public string? Who { get; set; } = "drv";

    /// <summary>The status of the last answer.</summary>
    public HttpStatusCode Status { get; private set; }

    /// <summary>Where the browser is, with the query.</summary>
    public string At { get; private set; } = "/";

    /// <summary>The last answer as it came.</summary>
    public string Text { get; private set; } = "";

    /// <summary>The last answer's headers.</summary>
    public HttpResponseMessage Answer { get; private set; } = null!;

    public Task<IHtmlDocument> GoAsync(string path) =>
        SendAsync(() => new HttpRequestMessage(HttpMethod.Get, new Uri(home, path)));

    /// <summary>Sends a form with its hidden fields, and what a person types.</summary>
    /// <param name="page">The page with the form.</param>
    /// <param name="selector">The form.</param>
    /// <param name="typed">What is typed, by field; a field may come several times.</param>
    public Task<IHtmlDocument> SendFormAsync(
        IHtmlDocument page,
        string selector,
        params (string Field, string Value)[] typed
    )
    {
        var form = (IHtmlFormElement)page.QuerySelector(selector)!;
        var fields = form.QuerySelectorAll<IHtmlInputElement>("input[type=hidden]")
            .Select(input => (input.Name!, input.Value))
            .Concat(typed)
            .Select(pair => KeyValuePair.Create(pair.Item1, pair.Item2))
            .ToList();
        var to = form.GetAttribute("action") is { Length: > 0 } action ? action : At;
        return SendAsync(() =>
            new HttpRequestMessage(HttpMethod.Post, new Uri(home, to)) { Content = new FormUrlEncodedContent(fields) }
        );
    }

    /// <summary>Sends a form with a file.</summary>
    public Task<IHtmlDocument> SendFileAsync(
        IHtmlDocument page,
        string selector,
        string field,
        string content,
        params (string Field, string Value)[] typed
    )
    {
        var form = (IHtmlFormElement)page.QuerySelector(selector)!;
        var hidden = form.QuerySelectorAll<IHtmlInputElement>("input[type=hidden]")
            .Select(input => (input.Name!, input.Value))
            .ToList();
        return SendAsync(() =>
        {
            var parts = new MultipartFormDataContent();
            foreach (var (name, value) in hidden.Concat(typed))
            {
                parts.Add(new StringContent(value), name);
            }

            parts.Add(new StringContent(content), field, "list.csv");
            return new HttpRequestMessage(HttpMethod.Post, new Uri(home, At)) { Content = parts };
        });
    }

    public void Dispose()
    {
        Answer?.Dispose();
        console.Dispose();
    }

    private async Task<IHtmlDocument> SendAsync(Func<HttpRequestMessage> make)
    {
        using var request = make();
        At = request.RequestUri!.PathAndQuery;
        Sign(request);
        Answer?.Dispose();
        Answer = await console.Browser.SendAsync(request);
        foreach (var cookie in Answer.Headers.TryGetValues("Set-Cookie", out var set) ? set : [])
        {
            cookies.SetCookies(home, cookie);
        }

        Status = Answer.StatusCode;
        if (Answer.Headers.Location is { } next)
        {
            return await GoAsync(next.IsAbsoluteUri ? next.PathAndQuery : next.OriginalString);
        }

        Text = await Answer.Content.ReadAsStringAsync();
        return new HtmlParser().ParseDocument(Text);
    }

    private void Sign(HttpRequestMessage request)
    {
        if (cookies.GetCookieHeader(home) is { Length: > 0 } kept)
        {
            request.Headers.Add("Cookie", kept);
        }

        if (Who is not null)
        {
            request.Headers.Add(SignedInForTests.Who, Who);
            request.Headers.Add(SignedInForTests.Roles, Roles.ToString());
        }
    }
}
