using SkiaSharp;

namespace PupilBridge.Browser.Pixels;

/// <summary>How much light a picture gives, by its pixels.</summary>
/// <param name="Mean">Mean relative luminance, 0 to 1.</param>
/// <param name="BrightShare">The share of pixels whose relative luminance is above <see cref="Bright"/>, 0 to 1.</param>
public readonly record struct PixelLight(double Mean, double BrightShare)
{
    /// <summary>A pixel above this relative luminance is bright.</summary>
    public const double Bright = 0.25;

    /// <summary>The highest mean relative luminance of a page that does not light up a dark room.</summary>
    public const double DimMean = 0.02;

    /// <summary>The largest share of its pixels that may be bright.</summary>
    public const double DimBrightShare = 0.01;

    private static readonly double[] Linear = [.. Enumerable.Range(0, 256).Select(LinearOf)];

    /// <summary>Measures a picture.</summary>
    /// <param name="png">The picture, as a screenshot gives it.</param>
    public static PixelLight Of(byte[] png)
    {
        using var picture = SKBitmap.Decode(png);
        return Of(picture);
    }

    /// <summary>Measures a picture.</summary>
    /// <param name="picture">The picture.</param>
    public static PixelLight Of(SKBitmap picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var pixels = picture.Pixels;
        var (sum, bright) = (0.0, 0);
        foreach (var pixel in pixels)
        {
            var luminance = Luminance(pixel);
            sum += luminance;
            bright += luminance > Bright ? 1 : 0;
        }

        return new PixelLight(sum / pixels.Length, (double)bright / pixels.Length);
    }

    /// <summary>Relative luminance of a colour in sRGB, by the definition of WCAG 2.2 (IEC 61966-2-1).</summary>
    /// <param name="colour">The colour; its transparency is not looked at.</param>
    /// <returns>0 for black to 1 for white.</returns>
    public static double Luminance(SKColor colour) =>
        (0.2126 * Linear[colour.Red]) + (0.7152 * Linear[colour.Green]) + (0.0722 * Linear[colour.Blue]);

    private static double LinearOf(int value)
    {
        var part = value / 255.0;
        return part <= 0.04045 ? part / 12.92 : Math.Pow((part + 0.055) / 1.055, 2.4);
    }
}
