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
        var (looks, _) = await LaneTour.RunAsync(
            chromium,
            Directory.CreateDirectory(Path.Combine(folder, "lane")).FullName
        );
        figures.Set("lane_states", looks.Count);
        figures.Set("lane_luminance_mean_max", looks.Max(l => l.Light.Mean), 4);
        figures.Set("lane_bright_pixels_max_percent", looks.Max(l => l.Light.BrightShare) * 100, 3);
        figures.Set("lane_weak_texts", looks.Sum(l => l.Weak.Count));
        await using var console = await ServedConsole.StartWithExamAsync(
            Directory.CreateDirectory(Path.Combine(folder, "pages")).FullName
        );
        List<string> found = [];
        var (pages, _) = await PageTour.GoAsync(
            chromium,
            console,
            (1280, 800),
            PageTour.Faces,
            async (page, name) => found.AddRange((await AxeCheck.RunAsync(page)).Select(f => $"{name}: {f}"))
        );
        figures.Set("pages", pages);
        figures.Set("axe_violations", found.Count);
        foreach (var one in found)
            System.Console.WriteLine(one);
    }
}
