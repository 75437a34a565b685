using System.Diagnostics;
using PupilBridge.Benchmarks;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Calibrating;

/// <summary>
/// How long both scales' fits of 12 discs × 10 readings take, and how many exams a second are read anew under another calibration, in
/// memory and on one core.
/// </summary>
internal static class CalibrationSpeed
{
    private const int Exams = 100_000;
    private const int Fits = 301;
    private const int Passes = 7;

    public static void Run(FigureFile figures)
    {
        var readings = CalibrationSample.Readings(12, 10);
        var fit = Median(
            Fits,
            () =>
            {
                CalibrationSample.Fit(readings);
                CalibrationSample.Fit(readings);
            }
        );
        var exams = CalibrationSample.Exams(Exams);
        var corrections = CalibrationSample.Corrections();
        var (sum, again) = (0.0, 0.0);
        var pass = Median(
            Passes,
            () =>
            {
                (again, sum) = (sum, 0);
                foreach (var exam in exams)
                    sum += CalibrationSample.Rederive(exam, corrections);
            }
        );
        if (!(sum > 0 && sum.Equals(again)))
            throw new InvalidOperationException(
                $"Reading the exams anew gave {sum} mm once and {again} mm another time."
            );
        var perSecond = (long)(Exams / pass.TotalSeconds);
        System.Console.WriteLine($"fit of 2 scales, 12 x 10 readings  {fit.TotalMilliseconds:0.000} ms");
        System.Console.WriteLine($"exams read anew                    {perSecond} a second, of {Exams}");
        figures.Set("fit_ms", fit.TotalMilliseconds, 3);
        figures.Set("rederive_exams", (long)Exams);
        figures.Set("rederive_exams_per_s", perSecond);
    }

    /// <summary>The median of so many times, after a tenth as many, and at least two, that do not count.</summary>
    private static TimeSpan Median(int times, Action work)
    {
        for (var i = 0; i < Math.Max(2, times / 10); i++)
            work();
        var spans = new TimeSpan[times];
        for (var i = 0; i < times; i++)
        {
            var began = Stopwatch.GetTimestamp();
            work();
            spans[i] = Stopwatch.GetElapsedTime(began);
        }

        Array.Sort(spans);
        return spans[times / 2];
    }
}
