using SkiaSharp;

namespace PupilBridge.Browser.Pixels;

/// <summary>
/// The contrast of a text against its ground, by pixels. The ground is the commonest colour of the text's box; the text's own colour is
/// that of the strongest strokes: edges of letters are blends with the ground, so the few colours furthest from it are the letters.
/// </summary>
public static class TextContrast
{
    /// <summary>So many pixels at least must have the strokes' colour or a stronger one; a speck is no text.</summary>
    private const int LeastPixels = 6;

    /// <summary>Measures the part of a picture in which one text stands.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="box">The text's box in the picture's pixels.</param>
    /// <returns>The ratio by WCAG 2.2, 1 to 21; null where there is nothing but ground.</returns>
    public static double? Of(SKBitmap picture, SKRectI box)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var counts = Count(picture, box);
        var groundColour = counts.MaxBy(c => c.Value).Key;
        counts.Remove(groundColour);
        var ground = PixelLight.Luminance(groundColour);
        var seen = 0;
        foreach (
            var (ratio, count) in counts.Select(c => (Ratio(c.Key, ground), c.Value)).OrderByDescending(c => c.Item1)
        )
        {
            seen += count;
            if (seen >= LeastPixels)
                return ratio;
        }

        return null;
    }

    /// <summary>The contrast of two relative luminances by WCAG 2.2.</summary>
    /// <param name="one">One, 0 to 1.</param>
    /// <param name="other">The other, 0 to 1.</param>
    public static double Ratio(double one, double other) =>
        (Math.Max(one, other) + 0.05) / (Math.Min(one, other) + 0.05);

    private static double Ratio(SKColor colour, double ground) => Ratio(PixelLight.Luminance(colour), ground);

    private static Dictionary<SKColor, int> Count(SKBitmap picture, SKRectI box)
    {
        var counts = new Dictionary<SKColor, int>();
        var within = SKRectI.Intersect(box, new SKRectI(0, 0, picture.Width, picture.Height));
        for (var y = within.Top; y < within.Bottom; y++)
        {
            for (var x = within.Left; x < within.Right; x++)
            {
                var colour = picture.GetPixel(x, y);
                counts[colour] = counts.GetValueOrDefault(colour) + 1;
            }
        }

        return counts;
    }
}
