using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Bench.Runs;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary>Tells a technician what has changed about a run since it was looked at last: only what is recorded is told as a reading.</summary>
/// <param name="call">The invocation.</param>
internal sealed class RunTelling(Call call)
{
    private readonly Dictionary<long, string> told = [];
    private string asked = "";
    private string line = "";
    private string? other;
    private int refused;
    private int incidents;
    private int stimuli;

    /// <summary>Tells the news.</summary>
    /// <param name="run">The run as it is now.</param>
    public void Tell(BenchRunView run)
    {
        Line(run);
        Readings(run);
        foreach (var news in run.Refused.Skip(refused))
        {
            call.Remark($"      no reading: {news}");
        }

        foreach (var news in run.Incidents.Skip(incidents))
        {
            call.Remark($"      to be known: {news}");
        }

        (refused, incidents) = (run.Refused.Count, run.Incidents.Count);
        Stimuli(run);
        Asked(run);
    }

    private void Line(BenchRunView run)
    {
        if (run.InstrumentLine != line)
        {
            line = run.InstrumentLine;
            call.Remark(
                line == "connected"
                    ? $"{run.Line.Instrument} is connected."
                    : $"{run.Line.Instrument} is {line}: nothing can be read until it is connected. What was measured is kept."
            );
        }

        if (run.OtherInstrument != other)
        {
            other = run.OtherInstrument;
            if (other is not null)
            {
                call.Remark(
                    $"Another instrument, {other}, is on its port. Its readings do not belong to this run: put {run.Line.Instrument} "
                        + "back, or give the run up (q REASON)."
                );
            }
        }
    }

    private void Readings(BenchRunView run)
    {
        for (var at = 0; at < run.Readings.Count; at++)
        {
            var words = ReadingWords.Line(at + 1, run.Readings[at]);
            if (told.GetValueOrDefault(run.Readings[at].Reading) != words)
            {
                told[run.Readings[at].Reading] = words;
                call.Remark(words);
            }
        }
    }

    private void Stimuli(BenchRunView run)
    {
        var count = run.Timing.Sum(one => one.Count);
        if (run.Line.Kind == "timing" && count != stimuli)
        {
            stimuli = count;
            call.Remark($"{count} stimuli are recorded.");
        }
    }

    private void Asked(BenchRunView run)
    {
        var now = run switch
        {
            { Line.State: not "open" } => "",
            { Asked: { } step } => $"Now ({run.Done + 1} of {run.Done + run.ToCome}): {StepWords.Of(step)}{Then(run)}",
            { Line.Kind: "timing" } =>
                "Run the blocks that are to be timed, each to its end; Enter finishes, q REASON gives up.",
            _ => "All readings are there. Enter finishes; x NUMBER REASON sets one aside and asks for it again.",
        };
        if (now != asked)
        {
            asked = now;
            if (now.Length > 0)
            {
                call.Remark(now);
            }
        }
    }

    private static string Then(BenchRunView run) =>
        run.Next.Count == 0 ? "" : $"    then {string.Join("; ", run.Next.Select(StepWords.Of))}";
}
