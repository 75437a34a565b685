using PupilBridge.Browser.Pixels;
using SkiaSharp;

namespace PupilBridge.Browser.Tests.Pixels;

public class PixelLightTests
{
    [Theory]
    [InlineData(0, 0, 0, 0)]
    [InlineData(255, 255, 255, 1)]
    [InlineData(255, 0, 0, 0.2126)]
    [InlineData(0, 255, 0, 0.7152)]
    [InlineData(0, 0, 255, 0.0722)]
    [InlineData(128, 128, 128, 0.2158605)] // ((128/255 + 0.055) / 1.055) ^ 2.4
    [InlineData(10, 10, 10, 0.0030353)] // 10/255/12.92, below the knee
    public void A_colour_has_the_luminance_that_its_definition_gives(
        byte red,
        byte green,
        byte blue,
        double expected
    ) => Assert.Equal(expected, PixelLight.Luminance(new SKColor(red, green, blue)), 5);

    [Fact]
    public void The_mean_and_the_share_of_bright_pixels_are_those_of_the_picture()
    {
        // A quarter white, a quarter mid grey (just below bright), the rest black.
        using var picture = Painted(
            40,
            40,
            SKColors.Black,
            (new SKRect(0, 0, 40, 10), SKColors.White),
            (new SKRect(0, 10, 40, 20), new SKColor(128, 128, 128))
        );
        var light = PixelLight.Of(picture);
        Assert.Equal((1 + 0.2158605) / 4, light.Mean, 5);
        Assert.Equal(0.25, light.BrightShare, 6);
        using var png = picture.Encode(SKEncodedImageFormat.Png, 100);
        Assert.Equal(light, PixelLight.Of(png.ToArray()));
    }

    internal static SKBitmap Painted(
        int width,
        int height,
        SKColor ground,
        params (SKRect Where, SKColor Colour)[] areas
    )
    {
        var picture = new SKBitmap(width, height);
        using var canvas = new SKCanvas(picture);
        canvas.Clear(ground);
        foreach (var (where, colour) in areas)
        {
            using var paint = new SKPaint { Color = colour };
            canvas.DrawRect(where, paint);
        }

        return picture;
    }
}
