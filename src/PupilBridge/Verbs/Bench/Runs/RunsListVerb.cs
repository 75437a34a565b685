using System.CommandLine;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary><c>calibration list</c>: how the instruments stand, and their runs.</summary>
internal sealed class RunsListVerb : Verb
{
    private readonly Option<string?> instrument = new("--instrument")
    {
        Description = "Only the instrument with this serial number.",
        HelpName = "SERIAL",
    };

    private readonly Option<long?> before = new("--before")
    {
        Description = "Only runs before this one.",
        HelpName = "RUN",
    };

    private readonly Option<int> limit = CommonOptions.Limit("The most runs of each instrument", usual: 20);
    private readonly Option<bool> json = CommonOptions.Json();

    public RunsListVerb()
        : base("list", "Lists how each instrument's calibration stands, and the runs on the bench, the latest first.")
    {
        foreach (var option in (ReadOnlySpan<Option>)[instrument, before, limit, json])
        {
            Add(option);
        }

        Example("pupilbridge calibration list", "every instrument with its latest runs");
        Example("pupilbridge calibration list --instrument QA-1 --json", "one instrument, for a program");
        EndsWith(DeskAccess.Exits);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var instruments = call.Get(instrument) is { } named
                ? [await access.InstrumentAsync(named, cancel).ConfigureAwait(false)]
                : (await access.OverviewAsync(cancel).ConfigureAwait(false)).Instruments;
            var runs = new List<BenchRunLine>();
            foreach (var one in instruments)
            {
                runs.AddRange(
                    await access
                        .AskBenchAsync(bench =>
                            bench.ListRunsAsync(one.Instrument, call.Get(before), call.Get(limit), cancel)
                        )
                        .ConfigureAwait(false)
                );
            }

            if (call.Get(json))
            {
                call.PrintJson(new { Instruments = instruments, Runs = runs });
            }
            else
            {
                Print(call, instruments, runs);
            }
        }

        return ExitCode.Done;
    }

    private static void Print(Call call, IReadOnlyList<BenchInstrument> instruments, List<BenchRunLine> runs)
    {
        foreach (var one in instruments)
        {
            call.Print($"{one.Instrument} ({one.Model}), {one.Line}: {one.Calibration.Words}");
            call.Print($"  lamps: {Lamps(one.Lamps)}");
            if (one.LiveRepeatabilityMillimetres is { } live)
            {
                call.Print($"  repeatability on living people: {BenchNumbers.Millimetres(live)} mm");
            }

            if (one.OpenRun is { } open)
            {
                call.Print($"  on the bench: run {open}, {one.OpenRunKind}");
            }
        }

        if (instruments.Count > 0)
        {
            call.Print();
        }

        var table = new TextTable(
            "run",
            "instrument",
            "kind",
            "begun",
            "by",
            "state",
            "certificate",
            "error OD mm",
            "error OS mm"
        );
        foreach (var run in runs)
        {
            table.Add(
                BenchNumbers.Whole(run.Run),
                run.Instrument,
                run.Kind,
                call.LocalTime(run.BegunAt),
                run.Technician,
                run.State,
                run.Certificate is { } number ? BenchNumbers.Whole(number) : "-",
                run.OffsetMillimetres.Right is { } right ? BenchNumbers.Signed(right) : "-",
                run.OffsetMillimetres.Left is { } left ? BenchNumbers.Signed(left) : "-"
            );
        }

        table.Print(call, "No run is listed.");
    }

    /// <summary>The lamps in a few words; the balance is shown with its age, and its lack as what it is.</summary>
    private static string Lamps(LampView? lamps) =>
        lamps is null
            ? "never compared; unequal lamps imitate a defect"
            : $"right against left {BenchNumbers.Signed(lamps.LogUnits)} ± {BenchNumbers.Millimetres(lamps.ExpandedLogUnits)} log units, "
                + $"{lamps.AgeDays} days ago{(lamps.IsOverdue ? "; a new check is overdue" : "")}";
}
