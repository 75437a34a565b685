using Microsoft.Playwright;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>A console with an exam to review, and people before their browsers; tells all that helps if a test fails.</summary>
internal sealed class PageStage : IAsyncDisposable
{
    private readonly Chromium chromium;
    private readonly List<(Visitor Visitor, IPage Page)> open = [];

    private PageStage(Chromium chromium, ServedConsole console) => (this.chromium, Console) = (chromium, console);

    public ServedConsole Console { get; }

    /// <summary>Plays with an exam to review, or with nobody and nothing in the house.</summary>
    public static async Task PlayAsync(
        ITestOutputHelper output,
        ChromiumFixture fixture,
        Func<PageStage, Task> play,
        bool isEmpty = false
    )
    {
        var folder = Directory.CreateTempSubdirectory("pb-page-").FullName;
        try
        {
            var console = isEmpty
                ? await ServedConsole.StartEmptyAsync(folder)
                : await ServedConsole.StartWithExamAsync(folder);
            await using var stage = new PageStage(fixture.Chromium, console);
            await stage.TryAsync(output, play);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Somebody opens a page and signs in there.</summary>
    public async Task<IPage> OpenAsync(string who, string path)
    {
        var visitor = await chromium.VisitAsync(Console.Address, 1280, 800);
        var page = await SignIn.OpenAsync(visitor, who, path);
        open.Add((visitor, page));
        return page;
    }

    /// <summary>Somebody opens a page without signing in.</summary>
    public async Task<IPage> LookAsync(string path)
    {
        var visitor = await chromium.VisitAsync(Console.Address, 1280, 800);
        var page = await visitor.OpenAsync(path);
        open.Add((visitor, page));
        return page;
    }

    /// <summary>The number of the exam that awaits review.</summary>
    public async Task<long> ExamAsync() =>
        (await Console.AskAsync("exams", "list")).GetProperty("exams")[0].GetProperty("exam").GetInt64();

    /// <summary>An exam's status.</summary>
    public async Task<string?> StatusAsync(long exam) =>
        (await Console.AskAsync("exams", "show", $"{exam}")).GetProperty("summary").GetProperty("status").GetString();

    public async ValueTask DisposeAsync()
    {
        foreach (var (visitor, _) in open)
            await visitor.DisposeAsync();
        await Console.DisposeAsync();
    }

    private async Task TryAsync(ITestOutputHelper output, Func<PageStage, Task> play)
    {
        try
        {
            await play(this);
            Assert.Empty(open.SelectMany(o => o.Visitor.Problems));
        }
        catch
        {
            output.WriteLine($"The service said:\n{Console.Said}");
            foreach (var (visitor, page) in open)
            {
                var picture = await Screenshots.OfFailureAsync(page, whole: true);
                output.WriteLine($"{picture} {string.Join("; ", visitor.Problems)}");
            }

            throw;
        }
    }
}
