using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary>The timing of stimuli as text.</summary>
internal static class TimingText
{
    /// <summary>Prints it; nothing where no lamp was on.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="lines">One line for each block and eye.</param>
    public static void Print(Call call, IReadOnlyList<TimingLine> lines)
    {
        if (lines.Count == 0)
        {
            return;
        }

        call.Print();
        var table = new TextTable(
            "block",
            "eye",
            "stimuli",
            "mean dwell ms",
            "jitter ms",
            "shortest",
            "longest",
            "dwell",
            "mean dark ms",
            "dark"
        );
        foreach (var line in lines)
        {
            table.Add(
                line.Block,
                line.Eye,
                BenchNumbers.Whole(line.Count),
                Number(line.MeanMilliseconds),
                line.JitterMilliseconds is { } jitter ? Number(jitter) : "-",
                BenchNumbers.Whole(line.ShortestMilliseconds),
                BenchNumbers.Whole(line.LongestMilliseconds),
                line.Verdict,
                line.GapMilliseconds is { } gap ? Number(gap) : "-",
                line.GapVerdict
            );
        }

        table.Print(call.Terminal);
    }

    private static string Number(double milliseconds) => milliseconds.ToString("0.0", CultureInfo.InvariantCulture);
}
