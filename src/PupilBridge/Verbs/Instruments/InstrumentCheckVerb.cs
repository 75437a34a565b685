using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Conformance;
using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Conformance.Tracing;
using PupilBridge.Ports;

namespace PupilBridge.Verbs.Instruments;

/// <summary><c>instrument check</c>: whether an attached instrument keeps to the protocol.</summary>
internal sealed class InstrumentCheckVerb : Verb
{
    private readonly AttachedPort attached = new();
    private readonly NewRecording record = new();

    private readonly Option<double?> endurance = NumberOption.One(
        "--endurance",
        "SECONDS",
        "How long to listen at the end, 6 to 86400; 6 by default. The longer, the better the clock can be told."
    );

    private readonly Option<bool> withPerson = new("--with-person")
    {
        Description = "Somebody is at the instrument: ask there for what makes it tell each kind of event.",
    };

    private readonly Option<bool> discard = new("--discard")
    {
        Description = "Events of exams that the instrument keeps may be acknowledged and so be lost.",
    };

    private readonly Option<string?> serial = new("--serial")
    {
        Description = "The serial number that stands on the instrument; one that claims another's is found by it.",
        HelpName = "TEXT",
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public InstrumentCheckVerb()
        : base(
            "check",
            "Checks an attached instrument against the protocol (docs/protocol.md) and names the section that it breaks. It takes "
                + "about 45 s, longer where something fails and is tried again."
        )
    {
        Add(attached.Port);
        Add(attached.Baud);
        Add(endurance);
        Add(withPerson);
        Add(discard);
        Add(serial);
        Add(record.File);
        Add(json);
        Example("pupilbridge instrument check /dev/ttyACM0", "checks what can be checked with nobody at it");
        Example(
            "pupilbridge instrument check /dev/ttyACM0 --with-person --discard --record lines.txt",
            "checks every kind of event, and records all lines"
        );
        Example("pupilbridge instrument check tcp:127.0.0.1:7300 --endurance 300 --json", "for a build server");
        EndsWith(ExitCode.Refused, ExitCode.Damaged, ExitCode.Port, ExitCode.Storage, ExitCode.Interrupted);
        Does(CheckAsync);
    }

    private async Task<ExitCode> CheckAsync(Call call, CancellationToken cancel)
    {
        var plan = Plan(call);
        var wire = await attached.OpenAsync(call).ConfigureAwait(false);
        CheckReport report;
        await using (wire.ConfigureAwait(false))
        {
            using var file = record.Create(call, call.Get(attached.Port)!);
            call.Remark("Checking; nobody should touch the instrument unless asked to.");
            try
            {
                report = await ConformanceRun
                    .RunAsync(wire, plan, line => file?.Write(Recording.LineOf(line) + "\n"), cancel)
                    .ConfigureAwait(false);
            }
            catch (PortLostException lost)
            {
                throw new CommandFailure(
                    ExitCode.Port,
                    lost.Message,
                    "Nothing can be said of the instrument; mend the line and run the check again."
                );
            }
        }

        if (call.Get(json))
        {
            call.PrintJson(CheckJson.Of(report, call.Get(attached.Port)!, plan));
        }
        else
        {
            CheckText.Print(call, report);
        }

        return CheckText.Verdict(call, report);
    }

    private CheckPlan Plan(Call call)
    {
        var seconds = call.Get(endurance) ?? 6;
        if (seconds is < 6 or > 86_400)
        {
            throw new CommandFailure(ExitCode.Usage, "--endurance must be 6 to 86400 seconds.");
        }

        if (call.Get(withPerson) && call.Terminal.ReadKey is null)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "--with-person asks at a terminal, and nobody types here.",
                "Run it in a terminal window, or leave the option out."
            );
        }

        return new CheckPlan(call.Time.GetUtcNow())
        {
            Endurance = TimeSpan.FromSeconds(seconds),
            MayDiscard = call.Get(discard),
            Serial = call.Get(serial),
            Hands = call.Get(withPerson) ? new PersonAtInstrument(call.Terminal) : null,
        };
    }
}
