using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;

namespace PupilBridge.Browser.Tests.Pages;

/// <summary>Every page in a made-up language whose words are 40 % longer, and in English, in two sizes of window.</summary>
public sealed class LongerLanguageTests(ChromiumFixture fixture) : IClassFixture<ChromiumFixture>, IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-longer-").FullName;

    [Theory]
    [InlineData("qps-ploc")]
    [InlineData("en")]
    public async Task No_page_is_wider_than_its_window_and_no_text_is_cut_off(string language)
    {
        await using var console = await ServedConsole.StartWithExamAsync(folder, $"Web:Language={language}");
        List<string> found = [];
        foreach (var size in new[] { (1280, 800), (1920, 1080) })
        {
            var (_, problems) = await PageTour.GoAsync(
                fixture.Chromium,
                console,
                size,
                ["dark"],
                async (page, name) =>
                {
                    var wrong = await LayoutCheck.RunAsync(page);
                    if (wrong.Count > 0)
                        await Screenshots.TakeAsync(page, $"wrong-{language}-{name}", whole: true);
                    found.AddRange(wrong.Select(f => $"{name}: {f}"));
                    var isMarked = await page.EvaluateAsync<bool>("() => document.body.innerText.includes('⟦')");
                    if (isMarked != (language == "qps-ploc"))
                        found.Add($"{name}: its words do not come from the resource files");
                }
            );
            Assert.Empty(problems);
        }

        Assert.True(found.Count == 0, string.Join("\n", found));
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
