using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>Every page in both faces: usable by everyone, dim in the dark face, nothing asked of anybody else, no errors.</summary>
public sealed class AllPagesTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>,
        IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-pages-").FullName;

    [Fact]
    public async Task Axe_finds_nothing_on_any_page_and_the_dark_face_is_dim()
    {
        await using var console = await ServedConsole.StartWithExamAsync(folder);
        output.WriteLine($"{await LookAsync(console, null)} pages in {PageTour.Faces.Count} faces");
    }

    [Fact]
    public async Task The_same_holds_of_the_first_start()
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
            async (page, name) =>
            {
                found.AddRange((await AxeCheck.RunAsync(page)).Select(f => $"{name}: {f}"));
                var light = PixelLight.Of(await page.ScreenshotAsync());
                if (
                    name.Contains("(dark", StringComparison.Ordinal)
                    && light is { Mean: > PixelLight.DimMean } or { BrightShare: > PixelLight.DimBrightShare }
                )
                    found.Add($"{name}: it would light up a dark room, {light}");
            },
            keepsPictures: true,
            which
        );
        Assert.True(found.Count == 0, string.Join("\n", found));
        Assert.True(problems.Count == 0, string.Join("\n", problems));
        return pages;
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
