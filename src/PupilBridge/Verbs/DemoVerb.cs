using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Demo;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Verbs;

/// <summary><c>demo</c>: a whole exam of a simulated patient.</summary>
internal sealed class DemoVerb : Verb
{
    private const long UsualSeed = 1;

    private readonly Option<long> seed = new("--seed")
    {
        Description = "Another number is another patient and examiner; the same number is the same exam.",
        HelpName = "N",
        DefaultValueFactory = _ => UsualSeed,
    };

    private readonly Option<string?> scenario = new("--scenario")
    {
        Description = "A patient by name instead of by seed.",
    };

    private readonly Option<string> model = new("--model")
    {
        Description = "The simulated instrument.",
        DefaultValueFactory = _ => InstrumentModels.QuayA.Name,
    };

    private readonly Option<double> pace = new("--pace")
    {
        Description = "How many times faster than in life time passes at most; 1 is as in life.",
        HelpName = "X",
        DefaultValueFactory = _ => DemoPlan.UsualPace,
    };

    private readonly Option<bool> stay = new("--stay")
    {
        Description = "Keep the service up when the chart is printed, until Ctrl-C.",
    };

    private readonly Option<bool> json = CommonOptions.Json("Print the finished exam as one JSON document.");

    public DemoVerb()
        : base(
            "demo",
            "Runs a whole exam of a simulated patient: a simulated instrument on a real pseudo-terminal, the service that "
                + "reads and records it, a simulated examiner who judges, and the chart text at the end."
        )
    {
        scenario.AcceptOnlyFromAmong(StringComparer.OrdinalIgnoreCase, [.. NamedScenarios.All.Select(s => s.Name)]);
        model.AcceptOnlyFromAmong(StringComparer.OrdinalIgnoreCase, [.. InstrumentModels.All.Select(m => m.Name)]);
        pace.Validators.Add(result =>
        {
            if (
                result.Tokens is [var token]
                && double.TryParse(token.Value, CultureInfo.InvariantCulture, out var x)
                && x is not (>= 0.1 and <= DemoPlan.HighestPace)
            )
            {
                result.AddError($"--pace is '{token.Value}'; allowed is 0.1 to {DemoPlan.HighestPace}.");
            }
        });
        foreach (var option in (ReadOnlySpan<Option>)[seed, scenario, model, pace, stay, json])
        {
            Add(option);
        }

        Example("pupilbridge demo", "one exam, from the wire to the chart, in a few seconds");
        Example("pupilbridge demo --seed 7 --model Quay-B", "another patient, on the instrument without mark keys");
        Example("pupilbridge demo --scenario left-rapd --pace 1", "a patient by name, at the pace of life");
        EndsWith(ExitCode.Refused, ExitCode.Port, ExitCode.Storage, ExitCode.Interrupted);
        Does(RunAsync);
    }

    private async Task<ExitCode> RunAsync(Call call, CancellationToken cancel)
    {
        if (!OperatingSystem.IsLinux())
        {
            throw new CommandFailure(
                ExitCode.Refused,
                "The demo needs a pseudo-terminal, which it makes itself on Linux only.",
                "Run it on Linux, or start the simulator over TCP and let 'pupilbridge serve --port tcp:HOST:PORT' listen to it."
            );
        }

        await ShowAsync(Plan(call), call, cancel).ConfigureAwait(false);
        return ExitCode.Done;
    }

    [SupportedOSPlatform("linux")]
    private async Task ShowAsync(DemoPlan plan, Call call, CancellationToken cancel)
    {
        call.Remark(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Quayside Occupational Health, patient {plan.Scenario.PatientNumber} ({plan.Scenario.Name}), examiner "
                    + $"{plan.Scenario.Examiner.Initials}, instrument {plan.Model.Name}, seed {plan.Seed}."
            )
        );
        call.Remark(
            plan.Pace > 1
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"All is simulated; time passes up to {plan.Pace:0.#} times faster than in life."
                )
                : "All is simulated; time passes as in life."
        );
        var wall = Stopwatch.StartNew();
        try
        {
            var view = await new DemoRun(plan, call).RunAsync(cancel).ConfigureAwait(false);
            if (call.Get(json))
            {
                call.PrintJson(
                    new
                    {
                        plan.Seed,
                        Scenario = plan.Scenario.Name,
                        plan.Folder,
                        Exam = view,
                    }
                );
            }
            else if (!plan.Stay)
            {
                call.Print();
                DemoSummary.Print(call.Terminal, view);
            }

            var shown = call.Get(json) ? call.Terminal.Error : call.Terminal.Out;
            shown.WriteLine();
            shown.WriteLine($"Stored in {plan.Folder} as exam {view.Summary.Exam}; see it again with");
            shown.WriteLine($"  pupilbridge exams show {view.Summary.Exam} --data {plan.Folder}");
            await shown.FlushAsync(CancellationToken.None).ConfigureAwait(false);
            call.Remark(string.Create(CultureInfo.InvariantCulture, $"Took {wall.Elapsed.TotalSeconds:0.0} s."));
        }
        catch (DemoFailure failure)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                failure.Message,
                $"What was recorded until then is in {plan.Folder}; 'pupilbridge journal verify --data {plan.Folder}' checks it."
            );
        }
    }

    private DemoPlan Plan(Call call)
    {
        var drawn = call.Get(seed);
        var who = call.Get(scenario) is { } name ? NamedScenarios.Find(name)! : NamedScenarios.FromSeed(drawn);
        // A named patient with a seed of one's own: the same pupils, other scatter.
        who = call.Get(scenario) is not null && call.IsGiven(seed) ? who with { Seed = drawn } : who;
        return new DemoPlan
        {
            Scenario = who,
            Seed = who.Seed,
            Model = InstrumentModels.Find(call.Get(model)!)!,
            Pace = call.Get(pace),
            Stay = call.Get(stay),
            Folder = DemoFolder.Make(DataFolderChoice.ForDemo(call), who.Seed, call.Time.GetLocalNow()),
        };
    }
}
