using PupilBridge.Browser;
using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Served;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Console;

/// <summary>How much light the lane gives in its states, and what axe finds on the pages.</summary>
internal static class LooksMeasure
{
    public static async Task RunAsync(FigureFile figures, string folder, Chromium chromium)
    {
        var (looks, _) = await LaneTour.RunAsync(chromium, Sub(folder, "lane"));
        figures.Set("lane_states", looks.Count);
        figures.Set("lane_luminance_mean_max", looks.Max(l => l.Light.Mean), 4);
        figures.Set("lane_bright_pixels_max_percent", looks.Max(l => l.Light.BrightShare) * 100, 3);
        figures.Set("lane_weak_texts", looks.Sum(l => l.Weak.Count));
        var (pages, found) = await AxeAsync(folder, chromium);
        figures.Set("pages", pages);
        figures.Set("axe_violations", found.Count);
        foreach (var one in found)
            System.Console.WriteLine(one);
    }

    private static async Task<(int Pages, List<string> Found)> AxeAsync(string folder, Chromium chromium)
    {
        List<string> found = [];
        await using var empty = await ServedConsole.StartEmptyAsync(Sub(folder, "empty"));
        await using var full = await ServedConsole.StartWithExamAsync(Sub(folder, "pages"));
        var first = await GoAsync(empty, PageTour.OfEmptyHouse);
        return (first + await GoAsync(full, await PageTour.PagesAsync(full)), found);

        async Task<int> GoAsync(ServedConsole console, IReadOnlyList<TouredPage> which)
        {
            var (pages, _) = await PageTour.GoAsync(
                chromium,
                console,
                (1280, 800),
                PageTour.Faces,
                async (page, name) => found.AddRange((await AxeCheck.RunAsync(page)).Select(f => $"{name}: {f}")),
                pages: which
            );
            return pages;
        }
    }

    private static string Sub(string folder, string name) =>
        Directory.CreateDirectory(Path.Combine(folder, name)).FullName;
}
