using Microsoft.Playwright;
using PupilBridge.Browser.Looks;

namespace PupilBridge.Browser.Tests.Looks;

/// <summary>That the checks of pages find what they are for, and leave good pages alone.</summary>
public sealed class LooksTests(ChromiumFixture fixture) : IClassFixture<ChromiumFixture>
{
    private static readonly Uri Nowhere = new("http://127.0.0.1:9/");

    [Fact]
    public async Task Axe_finds_a_field_without_a_name_and_nothing_on_a_good_page()
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere);
        var page = await ShowAsync(visitor, "<main><h1>Patients</h1><label>Number <input></label></main>");
        Assert.Empty(await AxeCheck.RunAsync(page));
        page = await ShowAsync(visitor, "<main><h1>Patients</h1><input></main>");
        Assert.Contains(await AxeCheck.RunAsync(page), found => found.StartsWith("label", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Text_that_is_cut_off_and_a_page_that_is_too_wide_are_found()
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere, 800, 600);
        var page = await ShowAsync(visitor, "<main><p>Enough room for all of it.</p></main>");
        Assert.Empty(await LayoutCheck.RunAsync(page));
        page = await ShowAsync(
            visitor,
            "<main><p style='width:60px;overflow:hidden;white-space:nowrap'>Not enough room</p><div style='width:900px'>wide</div></main>"
        );
        var found = await LayoutCheck.RunAsync(page);
        Assert.Contains(found, f => f.Contains("'Not enough room'", StringComparison.Ordinal));
        Assert.Contains(found, f => f.StartsWith("the page is", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Weak_text_is_found_by_its_pixels_and_strong_text_is_not()
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere, 800, 600);
        var page = await ShowAsync(
            visitor,
            "<main style='background:#0b0806'><p style='color:#c09050'>strong enough</p><p style='color:#4a3420'>too weak</p></main>"
        );
        var (_, texts, weak) = await ContrastCheck.RunAsync(page, () => page.ScreenshotAsync());
        Assert.Equal(2, texts);
        Assert.Contains("'too weak'", Assert.Single(weak), StringComparison.Ordinal);
    }

    private static async Task<IPage> ShowAsync(Visitor visitor, string body)
    {
        var page = await visitor.Context.NewPageAsync();
        await page.SetContentAsync($"<!doctype html><html lang='en'><title>Test</title><body>{body}</body></html>");
        return page;
    }
}
