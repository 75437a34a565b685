using PupilBridge.Clinic.Views;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary>A reading in words.</summary>
internal static class ReadingWords
{
    /// <summary>What should be known about it beside its numbers; empty if nothing.</summary>
    /// <param name="reading">The reading.</param>
    public static string Remark(BenchReadingView reading)
    {
        var mark = reading.Reason is { } reason ? $"{reason} ({reading.Who})" : "";
        var far = reading.FarOff ? "far from the others: look at it" : "";
        return string.Join("; ", new[] { far, mark }.Where(part => part.Length > 0));
    }

    /// <summary>The reading on one line, as it comes.</summary>
    /// <param name="number">Its number in the run, from 1.</param>
    /// <param name="reading">The reading.</param>
    public static string Line(int number, BenchReadingView reading)
    {
        var disc = reading.Disc is { } name ? $" {name}" : "";
        var why = reading.State switch
        {
            "counts" => "",
            "set-aside" => "  set aside",
            "other-scale" => "  does not count: the other scale was asked for",
            "other-light" => "  does not count: the other room light was asked for",
            _ => "  does not count: nothing was asked for",
        };
        var remark = Remark(reading);
        return $"{number, 4}  {reading.Eye}{disc}  {BenchNumbers.Millimetres(reading.IndicatedMillimetres)} mm{why}"
            + (remark.Length > 0 ? $"  ({remark})" : "");
    }
}
