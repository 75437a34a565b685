using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Served;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>Every page in both faces: usable by everyone, nothing asked of anybody else, no errors; pictures to look at.</summary>
public sealed class AllPagesTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>,
        IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-pages-").FullName;

    [Fact]
    public async Task Axe_finds_nothing_on_any_page_in_either_face()
    {
        await using var console = await ServedConsole.StartWithExamAsync(folder);
        output.WriteLine($"{await LookAsync(console, null)} pages in {PageTour.Faces.Count} faces");
    }

    [Fact]
    public async Task Axe_finds_nothing_on_the_page_of_the_first_start()
    {
        await using var console = await ServedConsole.StartEmptyAsync(folder);
        Assert.Equal(1, await LookAsync(console, PageTour.OfEmptyHouse));
    }

    private async Task<int> LookAsync(ServedConsole console, IReadOnlyList<TouredPage>? which)
    {
        List<string> found = [];
        var (pages, problems) = await PageTour.GoAsync(
            fixture.Chromium,
            console,
            (1280, 800),
            PageTour.Faces,
            async (page, name) => found.AddRange((await AxeCheck.RunAsync(page)).Select(f => $"{name}: {f}")),
            pages: which
        );
        Assert.True(found.Count == 0, string.Join("\n", found));
        Assert.Empty(problems);
        return pages;
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
