using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>The options of <c>serve</c>.</summary>
internal sealed class ServeOptions
{
    public Option<string> Model { get; } =
        new("--model")
        {
            Description = $"The model: {Names(InstrumentModels.All.Select(m => m.Name))}.",
            HelpName = "NAME",
            DefaultValueFactory = _ => "quay-a",
        };

    public Option<string?> Link { get; } =
        new("--link")
        {
            Description = "Serve over a pseudo-terminal, with this path as its name that stays the same.",
            HelpName = "PATH",
        };

    public Option<int?> Tcp { get; } =
        new("--tcp")
        {
            Description = "Serve over TCP on loopback instead; 0 lets the system choose.",
            HelpName = "PORT",
        };

    public Option<string> Serial { get; } =
        new("--serial")
        {
            Description = "The instrument's serial number.",
            HelpName = "TEXT",
            DefaultValueFactory = _ => "QA-0042",
        };

    public Option<string?> Scenario { get; } =
        new("--scenario")
        {
            Description = "Once a host has greeted, run an exam of this scenario. See --list.",
            HelpName = "NAME",
        };

    public Option<long?> Seed { get; } =
        new("--seed")
        {
            Description =
                "Once a host has greeted, run an exam of the patient and examiner of this seed; also the seed of the faults.",
            HelpName = "N",
        };

    public Option<double> Pace { get; } =
        new("--pace")
        {
            Description = "How many times faster than life hands, eyes and ticks go; 1 is as in life.",
            HelpName = "X",
            DefaultValueFactory = _ => 1,
        };

    public Option<int?> Baud { get; } =
        new("--baud")
        {
            Description = "Hold the line to this speed in bits a second; without it, as fast as can be.",
            HelpName = "N",
        };

    public Option<string[]> Fault { get; } =
        new("--fault")
        {
            Description =
                "Something that goes wrong, by name; may be given several times; 'all' for the whole storm. See --list.",
            HelpName = "NAME",
            AllowMultipleArgumentsPerToken = true,
        };

    public BenchOptions Bench { get; } = new();

    public Option<bool> Hands { get; } =
        new("--hands")
        {
            Description = $"Do at the instrument what standard input says, a line each: {HandLines.Words}.",
        };

    public Option<bool> List { get; } = new("--list") { Description = "List models, scenarios and faults, and end." };

    public Command Command()
    {
        Pace.Validators.Add(Above(0));
        Serial.Validators.Add(result =>
        {
            if (!SerialNumber.IsValid(result.GetValueOrDefault<string>()))
            {
                result.AddError("--serial: 1 to 16 letters, digits, '-', '.' or '_'.");
            }
        });
        Model.Validators.Add(Known("model", InstrumentModels.All.Select(m => m.Name)));
        Scenario.Validators.Add(Known("scenario", NamedScenarios.All.Select(s => s.Name)));
        Fault.Validators.Add(Known("fault", FaultCatalogue.All.Select(f => f.Name).Append("all")));
        return new Command("serve", "Serve a simulated instrument with simulated eyes on a line that hosts can open.")
        {
            Model,
            Link,
            Tcp,
            Serial,
            Scenario,
            Seed,
            Pace,
            Baud,
            Fault,
            Bench.OffsetRight,
            Bench.OffsetLeft,
            Bench.GainRight,
            Bench.GainLeft,
            Bench.Discs,
            Bench.Scatter,
            Hands,
            List,
            new HelpOption("--help", "-h")
            {
                Description = "Show this help.",
                Action = new HelpWithExamples(
                    "PupilBridge.Simulator serve --model quay-a --link /tmp/quay-a",
                    "PupilBridge.Simulator serve --model quay-b --tcp 7055 --scenario left-rapd --pace 10",
                    "PupilBridge.Simulator serve --link /tmp/quay-a --seed 7 --fault flip unplug reboot",
                    "PupilBridge.Simulator serve --link /tmp/quay-a --discs --scale-offset-right 0.05 --scale-gain-left 0.997"
                ),
            },
        };
    }

    private static Action<OptionResult> Above(double limit) =>
        result =>
        {
            if (!result.Implicit && result.GetValueOrDefault<double>() <= limit)
            {
                result.AddError($"--pace must be above {limit}.");
            }
        };

    private static Action<OptionResult> Known(string what, IEnumerable<string> names)
    {
        var known = names.ToArray();
        return result =>
        {
            foreach (var word in result.Tokens.Select(t => t.Value))
            {
                if (!known.Contains(word, StringComparer.OrdinalIgnoreCase))
                {
                    result.AddError($"There is no {what} '{word}'. There are: {Names(known)}.");
                }
            }
        };
    }

    private static string Names(IEnumerable<string> names) =>
        string.Join(", ", names.Select(n => n.ToLowerInvariant()));
}
