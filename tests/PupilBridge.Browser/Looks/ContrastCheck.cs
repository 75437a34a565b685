using Microsoft.Playwright;
using PupilBridge.Browser.Pixels;
using SkiaSharp;

namespace PupilBridge.Browser.Looks;

/// <summary>Whether all text in the window stands out from its ground as WCAG 2.2 AA asks for (1.4.3), measured from pixels.</summary>
public static class ContrastCheck
{
    /// <summary>What text needs.</summary>
    public const double Text = 4.5;

    /// <summary>What large text needs: 24 px and more, or 18.66 px and more if bold.</summary>
    public const double LargeText = 3;

    // A line of text that is partly covered or scrolled away is not measured; text in a control that is out of use need not stand out; a
    // text of nothing but a dot or a dash has too few whole pixels to tell its colour by.
    private const string Boxes = """
        () => {
            const found = [];
            const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
            for (let node = walker.nextNode(); node; node = walker.nextNode()) {
                const element = node.parentElement;
                const style = getComputedStyle(element);
                const isOff = element.closest(":disabled, [aria-disabled=true], script, style, option");
                if (!/[\p{L}\p{N}]/u.test(node.data) || isOff || style.visibility !== "visible" || Number(style.opacity) === 0) {
                    continue;
                }
                const range = document.createRange();
                range.selectNodeContents(node);
                const size = parseFloat(style.fontSize);
                const isLarge = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
                for (const box of range.getClientRects()) {
                    const inWindow = box.top >= 0 && box.left >= 0 && box.bottom <= innerHeight && box.right <= innerWidth;
                    const top = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
                    const isSeen = top && (element.contains(top) || top.contains(element));
                    if (inWindow && isSeen && box.width > 2 && box.height > 5) {
                        found.push([box.left, box.top, box.right, box.bottom, isLarge ? 1 : 0, node.data.trim().slice(0, 60)]);
                    }
                }
            }
            return found.map((f) => f.map(String));
        }
        """;

    // What stands somewhere else for a moment only, and is back when it is looked at again, may be just there in the picture: so it is looked
    // at with every frame that the browser draws.
    private const string Begin = $$"""
        () => {
            const boxes = {{Boxes}};
            const watch = { standing: new Map(boxes().map((box) => [box.join("|"), box])) };
            const look = () => {
                const now = new Set(boxes().map((box) => box.join("|")));
                for (const name of [...watch.standing.keys()].filter((name) => !now.has(name))) {
                    watch.standing.delete(name);
                }
                watch.next = requestAnimationFrame(look);
            };
            watch.end = () => { look(); cancelAnimationFrame(watch.next); return [...watch.standing.values()]; };
            watch.next = requestAnimationFrame(look);
            window.standingText = watch;
        }
        """;

    /// <summary>Measures all text that is to be seen, where it stands still.</summary>
    /// <param name="page">The page, with a scale factor of 1.</param>
    /// <param name="take">Takes a picture of the window. Text that changes or moves meanwhile is not measured.</param>
    /// <returns>The picture, how much text there was, and one sentence for each that does not stand out.</returns>
    public static async Task<(byte[] Png, int Texts, IReadOnlyList<string> Weak)> RunAsync(
        IPage page,
        Func<Task<byte[]>> take
    )
    {
        await page.EvaluateAsync(Begin).ConfigureAwait(false);
        var png = await take().ConfigureAwait(false);
        var stood = await page.EvaluateAsync<string[][]>("() => window.standingText.end()").ConfigureAwait(false);
        var (texts, weak) = Measure(png, stood);
        return (png, texts, weak);
    }

    private static (int Texts, IReadOnlyList<string> Weak) Measure(byte[] png, IEnumerable<string[]> boxes)
    {
        using var picture = SKBitmap.Decode(png);
        List<string> weak = [];
        var texts = 0;
        foreach (var box in boxes)
        {
            var needed = box[4] == "1" ? LargeText : Text;
            if (TextContrast.Of(picture, Where(box)) is not { } ratio)
                continue;
            texts++;
            if (ratio < needed)
                weak.Add($"'{box[5]}' at {box[0]},{box[1]} has a contrast of {ratio:F2} and needs {needed}");
        }

        return (texts, weak);
    }

    private static SKRectI Where(string[] box) =>
        new(
            (int)Math.Floor(Number(box[0])),
            (int)Math.Floor(Number(box[1])),
            (int)Math.Ceiling(Number(box[2])),
            (int)Math.Ceiling(Number(box[3]))
        );

    private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
