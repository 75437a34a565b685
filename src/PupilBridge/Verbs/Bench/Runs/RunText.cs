using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary>One run as text for a terminal.</summary>
internal static class RunText
{
    /// <summary>Prints all of it.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="run">The run.</param>
    public static void PrintWhole(Call call, BenchRunView run)
    {
        PrintHead(call, run);
        Readings(call, run);
        Lines(call, "Positions that became no reading", run.Refused);
        PrintOutcome(call, run);
        Lines(call, "To be known", run.Incidents);
        if (run.Asked is { } asked)
        {
            call.Print();
            call.Print($"Asked for now: {StepWords.Of(asked)}");
        }

        call.Print();
        call.Print(NextWords.Of(run));
    }

    /// <summary>Prints which run it is, and under what it was measured.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="run">The run.</param>
    public static void PrintHead(Call call, BenchRunView run)
    {
        var line = run.Line;
        call.Print(
            $"Run {line.Run}: {line.Kind} of {line.Instrument} by {line.Technician}, begun {call.LocalTime(line.BegunAt)}, {line.State}"
        );
        if (run.Why is { } why)
        {
            call.Print($"Why it ended: {why}");
        }

        if (run.DiscSet is { } set)
        {
            call.Print(
                $"Discs: {set.Name}, certificate {set.CertificateNumber} of {set.CertifiedBy}: "
                    + string.Join(
                        ", ",
                        set.Discs.Select(disc => $"{disc.Name} {BenchNumbers.Millimetres(disc.DiameterMillimetres)} mm")
                    )
            );
        }

        if (run.Rule is { } rule)
        {
            call.Print($"Rule: {rule}");
        }

        if (run.Conditions.Length > 0)
        {
            call.Print($"Conditions: {run.Conditions}");
        }

        call.Print($"Readings: {run.Done} count, {run.ToCome} to come; order drawn from {run.Seed}");
    }

    /// <summary>Prints what the run says: scales with their budgets, timing, repeatability.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="run">The run.</param>
    public static void PrintOutcome(Call call, BenchRunView run)
    {
        if (run.Scales is { } scales)
        {
            ScaleText.Print(call, scales);
        }

        TimingText.Print(call, run.Timing);
        if (run.Live is { } live)
        {
            call.Print();
            call.Print(live.Words);
            if (live.IsAdopted)
            {
                call.Print("It counts for the exams on this instrument.");
            }
        }
    }

    private static void Readings(Call call, BenchRunView run)
    {
        if (run.Readings.Count == 0)
        {
            return;
        }

        call.Print();
        var table = new TextTable("no.", "at", "scale", "disc", "nasal µm", "temporal µm", "indicated mm", "state", "");
        foreach (var (reading, at) in run.Readings.Select((reading, at) => (reading, at)))
        {
            table.Add(
                BenchNumbers.Whole(at + 1),
                call.LocalTime(reading.At),
                reading.Eye,
                reading.Disc ?? "-",
                BenchNumbers.Whole(reading.NasalMicrometres),
                BenchNumbers.Whole(reading.TemporalMicrometres),
                BenchNumbers.Millimetres(reading.IndicatedMillimetres),
                reading.State,
                ReadingWords.Remark(reading)
            );
        }

        table.Print(call.Terminal);
    }

    private static void Lines(Call call, string head, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0)
        {
            return;
        }

        call.Print();
        call.Print($"{head}:");
        foreach (var line in lines)
        {
            call.Print($"  {line}");
        }
    }
}
