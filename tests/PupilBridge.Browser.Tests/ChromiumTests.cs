using PupilBridge.Browser.Pixels;
using SkiaSharp;

namespace PupilBridge.Browser.Tests;

/// <summary>The browser itself, and that the watch over its pages sees what it must see.</summary>
public sealed class ChromiumTests(ChromiumFixture fixture) : IClassFixture<ChromiumFixture>
{
    private static readonly Uri Nowhere = new("http://127.0.0.1:9/");

    [Fact]
    public async Task The_contrast_of_real_letters_is_that_of_their_colours()
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere, 800, 300);
        var page = await visitor.Context.NewPageAsync();
        await page.SetContentAsync(
            "<body style='margin:0;background:#0b0806'><p style='margin:0;color:#a07840;font:16px sans-serif'>OD (right) 3.4 mm</p></body>"
        );
        using var picture = SKBitmap.Decode(await page.ScreenshotAsync());
        var measured = TextContrast.Of(picture, new SKRectI(0, 0, 300, 24));
        var expected = TextContrast.Ratio(
            PixelLight.Luminance(new SKColor(0xa0, 0x78, 0x40)),
            PixelLight.Luminance(new SKColor(0x0b, 0x08, 0x06))
        );
        Assert.NotNull(measured);
        Assert.InRange(measured.Value, expected * 0.85, expected * 1.05);
    }

    [Fact]
    public async Task A_request_to_elsewhere_and_an_error_of_a_script_are_noticed()
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere);
        var page = await visitor.Context.NewPageAsync();
        await page.SetContentAsync("<img src='http://127.0.0.1:10/elsewhere.png'><script>nothing.here()</script>");
        await Eventually.Is(() => visitor.Problems.Count >= 2, () => string.Join("\n", visitor.Problems));
        Assert.Contains(visitor.Problems, p => p.Contains("elsewhere.png", StringComparison.Ordinal));
        Assert.Contains(visitor.Problems, p => p.StartsWith("script:", StringComparison.Ordinal));
    }
}
