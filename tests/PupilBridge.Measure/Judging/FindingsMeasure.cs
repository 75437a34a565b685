using System.Diagnostics;
using PupilBridge.Cohort;
using PupilBridge.Exams.Criteria;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Judging;

/// <summary>How long all findings of one exam take, over the exams of a simulated clinic.</summary>
internal static class FindingsMeasure
{
    private const int People = 40;
    private const int Rounds = 200;
    private static int found;

    public static void Run(FigureFile figures)
    {
        var inputs = Enumerable.Range(0, People).Select(number => CohortRun.InputOf(1, number)).ToArray();
        Times(inputs);
        var spread = Spread.Of(Times(inputs));
        figures.Set("findings_us", spread.Median);
        figures.Set("findings_p99_us", spread.P99);
        figures.Set("findings_exams", (long)People);
        System.Console.WriteLine(
            $"findings: median {spread.Median:F1} µs, 99 % within {spread.P99:F1} µs, {spread.Count} times, {found} findings"
        );
    }

    private static List<double> Times(CriteriaInput[] inputs)
    {
        var times = new List<double>(Rounds * inputs.Length);
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var input in inputs)
            {
                var begin = Stopwatch.GetTimestamp();
                found += Exams.Criteria.Findings.Of(input).Length;
                times.Add(Stopwatch.GetElapsedTime(begin).TotalMicroseconds);
            }
        }

        return times;
    }
}
