using System.Globalization;
using Microsoft.Playwright;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;

namespace PupilBridge.Browser.Looks;

/// <summary>One page of the console.</summary>
/// <param name="Name">Its name, for pictures and messages.</param>
/// <param name="Path">Where it is.</param>
/// <param name="Who">Who looks at it; null for somebody who is not signed in.</param>
public sealed record TouredPage(string Name, string Path, string? Who);

/// <summary>Goes through all pages of a console that has an exam to review, in both faces.</summary>
public static class PageTour
{
    /// <summary>The faces.</summary>
    public static IReadOnlyList<string> Faces { get; } = ["dark", "light"];

    /// <summary>The one page of a console with nobody in it.</summary>
    public static IReadOnlyList<TouredPage> OfEmptyHouse { get; } = [new("first-start", "/first-start", null)];

    /// <summary>The pages.</summary>
    /// <param name="console">The console, with an exam to review.</param>
    public static async Task<IReadOnlyList<TouredPage>> PagesAsync(ServedConsole console)
    {
        ArgumentNullException.ThrowIfNull(console);
        var exam = (await console.AskAsync("exams", "list").ConfigureAwait(false)).GetProperty("exams")[0];
        var number = exam.GetProperty("exam").GetInt64().ToString(CultureInfo.InvariantCulture);
        var shown = await console.AskAsync("exams", "show", number).ConfigureAwait(false);
        var raw = shown.GetProperty("sizes")[0].GetProperty("sequence").GetInt64();
        var instrument = exam.GetProperty("instrument").GetString();
        return
        [
            new("sign-in", SignIn.Path, null),
            new("lanes", "/lanes", People.Clinician),
            new("day", "/day", People.Clinician),
            new("patients", "/patients", People.Clinician),
            new("patient", $"/patients/{People.Patient}", People.Clinician),
            new("exams", "/exams", People.Clinician),
            new("record", $"/exams/{number}", People.Clinician),
            new("raw", $"/exams/{number}/raw/{raw}", People.Clinician),
            new("review", "/review", People.Clinician),
            new("account", "/account", People.Clinician),
            new("sign-off", "/sign-off", People.Clinician),
            new("lane", $"/lane/{instrument}", People.Clinician),
            new("lane-keys", "/lane-keys", People.Clinician),
            new("not-found", "/nowhere", People.Clinician),
            new("no-such-exam", "/exams/999999", People.Clinician),
            new("instruments", "/instruments", People.Technician),
            new("bench", "/bench", People.Technician),
            new("bench-discs", "/bench/discs", People.Technician),
            new("bench-begin", $"/bench/begin/{instrument}?kind=live-repeatability", People.Technician),
            new("bench-begin-no-discs", $"/bench/begin/{instrument}", People.Technician),
            new("bench-lamps", $"/bench/lamps/{instrument}", People.Technician),
            new("bench-drift", $"/bench/drift/{instrument}", People.Technician),
            new("people", "/people", People.Administrator),
            new("keys", "/keys", People.Administrator),
            new("outbox", "/outbox", People.Administrator),
            new("erasing", "/erasing", People.Administrator),
            new("erasing-proposed", "/erasing/proposed", People.Administrator),
            new("person", $"/people/{People.Examiner}", People.Administrator),
            new("refused", "/review", People.Technician),
        ];
    }

    /// <summary>Shows every page in every face to somebody who looks.</summary>
    /// <param name="chromium">The browser.</param>
    /// <param name="console">The console.</param>
    /// <param name="size">Width and height of the window in CSS pixels.</param>
    /// <param name="faces">The faces.</param>
    /// <param name="look">What to do with a page, by its name and face.</param>
    /// <param name="keepsPictures">Whether a picture of each page is kept for people to look at.</param>
    /// <param name="pages">The pages; null for all of <see cref="PagesAsync"/>.</param>
    /// <returns>How many pages there were, and what must not have happened on any of them.</returns>
    public static async Task<(int Pages, IReadOnlyList<string> Problems)> GoAsync(
        Chromium chromium,
        ServedConsole console,
        (int Width, int Height) size,
        IReadOnlyList<string> faces,
        Func<IPage, string, Task> look,
        bool keepsPictures = false,
        IReadOnlyList<TouredPage>? pages = null
    )
    {
        ArgumentNullException.ThrowIfNull(chromium);
        ArgumentNullException.ThrowIfNull(look);
        pages ??= await PagesAsync(console).ConfigureAwait(false);
        List<string> problems = [];
        foreach (var mine in pages.GroupBy(p => p.Who))
        {
            var visitor = await chromium.VisitAsync(console.Address, size.Width, size.Height).ConfigureAwait(false);
            await using (visitor.ConfigureAwait(false))
            {
                var page = mine.Key is { } who
                    ? await SignIn.OpenAsync(visitor, who, "/account").ConfigureAwait(false)
                    : await visitor.OpenAsync(SignIn.Path).ConfigureAwait(false);
                foreach (var face in faces)
                {
                    await FaceAsync(visitor, console, face).ConfigureAwait(false);
                    foreach (var toured in mine)
                    {
                        await page.GotoAsync(toured.Path, new() { WaitUntil = WaitUntilState.Load })
                            .ConfigureAwait(false);
                        if (keepsPictures)
                            await Screenshots
                                .TakeAsync(page, $"{toured.Name}-{face}-{size.Width}", whole: true)
                                .ConfigureAwait(false);
                        await look(page, $"{toured.Name} ({face}, {size.Width} px)").ConfigureAwait(false);
                    }
                }

                problems.AddRange(visitor.Problems);
            }
        }

        return (pages.Count, problems);
    }

    /// <summary>The pages keep their face in one cookie and the lane in another.</summary>
    private static Task FaceAsync(Visitor visitor, ServedConsole console, string face) =>
        visitor.Context.AddCookiesAsync(
            new[] { "face", "lane-face" }.Select(name => new Cookie
            {
                Name = name,
                Value = face,
                Url = console.Address.ToString(),
            })
        );
}
