using PupilBridge.Browser.Pixels;
using SkiaSharp;

namespace PupilBridge.Browser.Tests.Pixels;

public class TextContrastTests
{
    private static readonly SKColor Ground = new(8, 8, 8);
    private static readonly SKColor Ink = new(160, 120, 60);

    [Fact]
    public void It_is_that_of_the_strokes_whatever_the_blended_edges_are()
    {
        var blend = new SKColor(84, 64, 34);
        using var picture = PixelLightTests.Painted(
            60,
            30,
            Ground,
            (new SKRect(10, 5, 14, 25), blend),
            (new SKRect(11, 5, 13, 25), Ink)
        );
        var expected = TextContrast.Ratio(PixelLight.Luminance(Ink), PixelLight.Luminance(Ground));
        Assert.Equal(expected, TextContrast.Of(picture, new SKRectI(0, 0, 60, 30))!.Value, 6);
    }

    [Fact]
    public void Dark_letters_on_a_light_ground_are_measured_alike()
    {
        using var picture = PixelLightTests.Painted(
            60,
            30,
            SKColors.White,
            (new SKRect(10, 5, 12, 25), SKColors.Black)
        );
        Assert.Equal(21, TextContrast.Of(picture, new SKRectI(0, 0, 60, 30))!.Value, 6);
    }

    [Fact]
    public void A_speck_is_no_text_and_neither_is_bare_ground()
    {
        using var picture = PixelLightTests.Painted(60, 30, Ground, (new SKRect(10, 5, 12, 6), SKColors.White));
        Assert.Null(TextContrast.Of(picture, new SKRectI(0, 0, 60, 30)));
        Assert.Null(TextContrast.Of(picture, new SKRectI(20, 0, 60, 30)));
    }
}
