using System.CommandLine;
using System.Reflection;
using PupilBridge.Measure.Backups;
using PupilBridge.Measure.Calibrating;
using PupilBridge.Measure.Codec;
using PupilBridge.Measure.Console;
using PupilBridge.Measure.Exchange;
using PupilBridge.Measure.Figures;
using PupilBridge.Measure.Growth;
using PupilBridge.Measure.Idle;
using PupilBridge.Measure.Journal;
using PupilBridge.Measure.Judging;
using PupilBridge.Measure.Load;
using PupilBridge.Measure.Outbox;
using PupilBridge.Measure.Peers;
using PupilBridge.Measure.Protection;
using PupilBridge.Measure.Reliability;
using PupilBridge.Measure.Wire;

namespace PupilBridge.Measure;

/// <summary>The measuring program: each part writes its values into docs/figures/ingest.json.</summary>
internal sealed class MeasureCommand : RootCommand
{
    private const string IngestFile = "docs/figures/ingest.json";
    private const string ConsoleFile = "docs/figures/console.json";
    private const string CriteriaFile = "docs/figures/criteria.json";
    private const string BackupFile = "docs/figures/backup.json";
    private const string CalibrationFile = "docs/figures/calibration.json";
    private const string LoadFile = "docs/figures/load.json";
    private const string ReliabilityFile = "docs/figures/reliability.json";
    private const string PeersFile = "docs/figures/peers.json";
    private const string GrowthFile = "docs/figures/growth.json";
    private const string ProtectionFile = "docs/figures/protection.json";
    private const string ExchangeFile = "docs/figures/exchange.json";
    private readonly Option<string?> fill = new("--fill");
    private readonly Option<int> count = new("--count") { DefaultValueFactory = _ => 100_000 };
    private readonly Option<string?> output = new("--out");
    private readonly Option<string> disk = new("--disk") { DefaultValueFactory = _ => "tests/.out/measure" };
    private readonly Option<int> exams = new("--exams") { DefaultValueFactory = _ => 200 };
    private readonly Option<int> terminals = new("--terminals") { DefaultValueFactory = _ => 5 };
    private readonly Option<int> people = new("--people") { DefaultValueFactory = _ => 2_000 };
    private readonly Option<long> seed = new("--seed") { DefaultValueFactory = _ => 20_261_127 };
    private readonly Option<int> trials = new("--trials") { DefaultValueFactory = _ => 20_000 };
    private readonly Option<int> cuts = new("--cuts") { DefaultValueFactory = _ => 60 };
    private readonly Option<int> megabytes = new("--megabytes") { DefaultValueFactory = _ => 1_000 };
    private readonly Option<int> kills = new("--kills") { DefaultValueFactory = _ => 50 };

    private readonly Option<int> atTheLane = new("--at-the-lane") { DefaultValueFactory = _ => 50 };

    private readonly Option<long[]> lengths = new("--lengths")
    {
        DefaultValueFactory = _ => [1_000, 100_000, 1_000_000],
        AllowMultipleArgumentsPerToken = true,
    };

    private readonly Option<bool> keep = new("--keep");
    private readonly Option<string> data = new("--data") { Required = true };
    private readonly Option<int> instruments = new("--instruments") { DefaultValueFactory = _ => 200 };
    private readonly Option<int> seconds = new("--seconds") { DefaultValueFactory = _ => 600 };
    private readonly Option<double> turn = new("--seconds") { DefaultValueFactory = _ => 2 };
    private readonly Option<int> rounds = new("--rounds") { DefaultValueFactory = _ => 7 };
    private readonly Option<int> turnLasting = new("--turn") { DefaultValueFactory = _ => 1_000 };
    private readonly Option<int> lines = new("--lines") { DefaultValueFactory = _ => 1_000_000 };
    private readonly Option<int> records = new("--records") { DefaultValueFactory = _ => 300 };
    private readonly Option<int> storm = new("--seed") { DefaultValueFactory = _ => 2026 };

    public MeasureCommand()
        : base(
            "Measures the bridge and writes docs/figures/ingest.json, or the part's own file beside it. Build with "
                + "-c Release; leave the machine alone meanwhile."
        )
    {
        Add(output);
        Add(disk);
        output.Recursive = disk.Recursive = true;
        output.Description = "The file that the values go into, if not the part's own.";
        disk.Description = "A folder on the disk to measure; a real one, no tmpfs.";
        exams.Description = "Exams under every fault at once, in memory.";
        terminals.Description = "Exams under every fault at once, over a pseudo-terminal.";
        kills.Description = "Kills of the real service.";
        people.Description = "People of the simulated clinic.";
        seed.Description = "Seed of what is simulated; a second clinic has the one after it.";
        Part("codec", "Lines per second through framer and decoder.", (f, _, _) => Task.Run(() => CodecMeasure.Run(f)));
        Part("wire", "From the wire to the acknowledgement.", (f, d, _) => WireToAck.RunAsync(f, d));
        Part("ingest", "Events per second acknowledged by the journal.", (f, d, _) => IngestMeasure.RunAsync(f, d));
        Part("idle", "What the service costs while nothing happens.", (f, d, _) => IdleMeasure.RunAsync(f, d));
        Part(
            "console",
            "Two lanes live in a real browser: keys, wire to pixel, memory, looks.",
            (f, d, _) => ConsoleMeasure.RunAsync(f, d),
            ConsoleFile
        );
        records.Description = "How many records are signed and sent.";
        storm.Description = "The seed of what goes wrong.";
        var outbox = Part(
            "outbox",
            "Records sent to a server at which a third of all goes wrong: how many arrive once, twice, never.",
            (f, d, r) => OutboxMeasure.RunAsync(f, d, r.GetValue(records), r.GetValue(storm)),
            ExchangeFile
        );
        outbox.Add(records);
        outbox.Add(storm);
        fill.Description = "Only fill an exam log in this folder.";
        count.Description = "How many exams.";
        var export = Part(
            "export",
            "A table of every exam of a generated exam log: exams per second, memory.",
            (f, d, r) => ExportMeasure.RunAsync(f, d, r.GetValue(count)),
            ExchangeFile
        );
        export.Add(fill);
        export.Add(count);
        var criteria = Part(
            "criteria",
            "The criteria against a simulated clinic of known truth; its table goes into docs/criteria.md.",
            (f, _, r) => Task.Run(() => CriteriaMeasure.Run(f, r.GetValue(seed), r.GetValue(people))),
            CriteriaFile
        );
        criteria.Add(people);
        criteria.Add(seed);
        Part(
            "findings",
            "How long the findings of one exam take.",
            (f, _, _) => Task.Run(() => FindingsMeasure.Run(f)),
            ExchangeFile
        );
        trials.Description = "Simulated calibrations of each design.";
        var coverage = Part(
            "coverage",
            "How often the 95 % interval of a corrected diameter holds the true one, in simulated calibrations.",
            (f, _, r) => Task.Run(() => CoverageMeasure.Run(f, r.GetValue(seed), r.GetValue(trials))),
            CalibrationFile
        );
        coverage.Add(trials);
        coverage.Add(seed);
        Part(
            "calibration",
            "How long a fit takes, how many exams a second are read anew under another calibration, and how many digits are right.",
            (f, _, _) =>
                Task.Run(() =>
                {
                    PublishedDigits.Run(f);
                    CalibrationSpeed.Run(f);
                }),
            CalibrationFile
        );
        Part(
            "documents",
            "The chart, record, bundle, message and report of every constructed exam: how long, and what the validator says.",
            (f, _, _) => Task.Run(() => DocumentsMeasure.Run(f)),
            ExchangeFile
        );
        turn.Description = "How long each turn of appending lasts.";
        Part(
                "protection",
                "What encryption at rest costs: appending and verifying the journal, filling the exam log; a minute.",
                (f, d, r) => Task.Run(() => ProtectionMeasure.Run(f, d, r.GetValue(turn))),
                ProtectionFile
            )
            .Add(turn);
        megabytes.Description = "How large the journal is that is backed up.";
        Part(
                "backup",
                "Backups of an encrypted journal: the first, with nothing new, with a day's work; verifying, restoring; three minutes, 5 GB.",
                (f, d, r) => Task.Run(() => BackupMeasure.Run(f, d, r.GetValue(megabytes))),
                BackupFile
            )
            .Add(megabytes);
        lengths.Description = "How many exams each data folder holds.";
        Part(
                "growth",
                "Ingest, history, today's list, starts, memory, verifying and rebuilding as the journal grows; twenty minutes, 15 GB.",
                (f, d, r) => GrowthMeasure.RunAsync(f, d, r.GetValue(lengths)!, r.GetValue(keep)),
                GrowthFile
            )
            .Add(lengths);
        Subcommands.Single(command => command.Name == "growth").Add(keep);
        keep.Description = "Leaves the data folders there.";
        data.Description = "A data folder that 'growth --keep' left.";
        Part(
                "starts",
                "Starts after a clean stop, seven times, on a data folder that is there.",
                (f, _, r) => GrowthMeasure.StartsAsync(f, r.GetRequiredValue(data)),
                GrowthFile
            )
            .Add(data);
        instruments.Description = "How many instruments examine at once.";
        seconds.Description = "How long.";
        var load = Part(
            "load",
            "Many instruments at once over loopback TCP, ten times faster than life: what is lost, delays, memory, the console's answers.",
            (f, d, r) => LoadMeasure.RunAsync(f, d, r.GetValue(instruments), TimeSpan.FromSeconds(r.GetValue(seconds))),
            LoadFile
        );
        load.Add(instruments);
        load.Add(seconds);
        rounds.Description = "How many rounds in which all take turns.";
        turnLasting.Description = "How long one turn of durable writing lasts, in milliseconds.";
        lines.Description = "How many lines are read in one turn.";
        var peers = Part(
            "peers",
            "Ours beside SQLite, a bare append and other readers of lines, in turns.",
            (f, d, r) =>
                PeerMeasure.RunAsync(
                    f,
                    d,
                    r.GetValue(rounds),
                    TimeSpan.FromMilliseconds(r.GetValue(turnLasting)),
                    r.GetValue(lines)
                ),
            PeersFile
        );
        peers.Add(rounds);
        peers.Add(turnLasting);
        peers.Add(lines);
        var faults = Part(
            "faults",
            "Exams under every fault at once, and kills.",
            (f, d, r) => FaultMeasure.RunAsync(f, d, r.GetValue(exams), r.GetValue(terminals), r.GetValue(kills))
        );
        faults.Add(exams);
        faults.Add(terminals);
        faults.Add(kills);
        atTheLane.Description = "Kills while an examiner works at the lane in a browser.";
        var killing = Part(
            "kills",
            "Kills of the real service, under an instrument alone and under an examiner at an open lane; a quarter of an hour.",
            (f, d, r) => KillMeasure.RunAsync(f, d, r.GetValue(kills), r.GetValue(atTheLane)),
            ReliabilityFile
        );
        killing.Add(kills);
        killing.Add(atTheLane);
        cuts.Description = "Cuts of power under the real service.";
        Part(
                "real",
                "Cuts of power, a full disk and tight limits under the real service; needs the superuser.",
                (f, d, r) => RealMeasure.RunAsync(f, d, r.GetValue(cuts)),
                ReliabilityFile
            )
            .Add(cuts);
    }

    /// <summary>As it was built, so that the files tell how their values came about.</summary>
    private static string Configuration =>
        typeof(MeasureCommand).Assembly.GetCustomAttribute<AssemblyConfigurationAttribute>()?.Configuration ?? "?";

    private Command Part(
        string name,
        string what,
        Func<FigureFile, string, ParseResult, Task> measure,
        string file = IngestFile
    )
    {
        var command = new Command(name, what);
        command.SetAction(
            async (result, _) =>
            {
                if (result.GetValue(fill) is { } only)
                {
                    ExportMeasure.Fill(only, result.GetValue(count));
                    return 0;
                }

                var folder = Path.Combine(Path.GetFullPath(result.GetValue(disk)!), name);
                if (Directory.Exists(folder))
                    Directory.Delete(folder, recursive: true);
                Directory.CreateDirectory(folder);
                var figures = new FigureFile(result.GetValue(output) ?? file);
                await measure(figures, folder, result);
                figures.Save(
                    name,
                    $"dotnet run -c {Configuration} --project tests/PupilBridge.Measure -- {name}",
                    folder
                );
                if (!result.GetValue(keep))
                    Directory.Delete(folder, recursive: true);
                return 0;
            }
        );
        Add(command);
        return command;
    }
}
