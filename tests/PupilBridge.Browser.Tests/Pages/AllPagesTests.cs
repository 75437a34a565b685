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
        List<string> found = [];
        var (pages, problems) = await PageTour.GoAsync(
            fixture.Chromium,
            console,
            (1280, 800),
            PageTour.Faces,
            async (page, name) => found.AddRange((await AxeCheck.RunAsync(page)).Select(f => $"{name}: {f}"))
        );
        output.WriteLine($"{pages} pages in {PageTour.Faces.Count} faces");
        Assert.True(found.Count == 0, string.Join("\n", found));
        Assert.Empty(problems);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
