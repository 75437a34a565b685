using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Verbs.Bench.Runs;

namespace PupilBridge.Verbs.Bench;

/// <summary><c>calibration drift</c>: how an instrument went over time.</summary>
internal sealed class DriftVerb : Verb
{
    private readonly Option<string?> instrument = InstrumentOption.New();
    private readonly Option<bool> json = CommonOptions.Json();

    public DriftVerb()
        : base(
            "drift",
            "Shows how an instrument's scales went from run to run, with control limits and warnings, where its scales rest at home, and the "
                + "timing of its stimuli in exams."
        )
    {
        Add(instrument);
        Add(json);
        Example("pupilbridge calibration drift --instrument QA-1", "offsets, slopes, homes, timing");
        EndsWith(DeskAccess.Exits);
        Does(ShowAsync);
    }

    private async Task<ExitCode> ShowAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var on = await access.InstrumentAsync(call.Get(instrument), cancel).ConfigureAwait(false);
            var drift =
                await access.AskBenchAsync(bench => bench.DriftAsync(on.Instrument, cancel)).ConfigureAwait(false)
                ?? throw new CommandFailure(ExitCode.NotFound, $"Instrument {on.Instrument} has never been met here.");
            if (call.Get(json))
            {
                call.PrintJson(drift);
            }
            else
            {
                Print(call, drift);
            }
        }

        return ExitCode.Done;
    }

    private static void Print(Call call, DriftView drift)
    {
        call.Print(
            $"{drift.Instrument}, maximum permissible error {BenchNumbers.Millimetres(drift.LimitMillimetres)} mm"
        );
        Print(call, "Error of the right scale, mm", drift.Offsets.Right, "0.000");
        Print(call, "Error of the left scale, mm", drift.Offsets.Left, "0.000");
        Print(call, "Slope of the right scale's error, mm/mm", drift.Slopes.Right, "0.00000");
        Print(call, "Slope of the left scale's error, mm/mm", drift.Slopes.Left, "0.00000");
        Print(call, "Right scale's rest off its home, in exams, mm", drift.Homes.Right, "0.000");
        Print(call, "Left scale's rest off its home, in exams, mm", drift.Homes.Left, "0.000");
        if (drift.Timing.Count > 0)
        {
            call.Print();
            call.Print($"Stimuli of the latest exams ({drift.TimingFrom})");
            TimingText.Print(call, drift.Timing);
        }
    }

    private static void Print(Call call, string what, DriftSeries series, string format)
    {
        call.Print();
        call.Print($"{what}: {series.Words}");
        if (series is { Centre: { } centre, Lower: { } lower, Upper: { } upper })
        {
            call.Print($"  centre {Number(centre)}, control limits {Number(lower)} to {Number(upper)}");
        }

        if (series.Points.Count == 0)
        {
            return;
        }

        var table = new TextTable("day", "value", "from", "");
        foreach (var point in series.Points)
        {
            table.Add(
                BenchNumbers.Day(point.Day),
                Number(point.Value),
                BenchNumbers.Whole(point.Source),
                point.IsQuickCheck ? "quick check" : ""
            );
        }

        table.Print(call.Terminal);

        string Number(double value) => value.ToString($"+{format};-{format};{format}", CultureInfo.InvariantCulture);
    }
}
