using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Conformance.Tracing;
using PupilBridge.Ports;

namespace PupilBridge.Verbs.Instruments;

/// <summary><c>instrument trace</c>: the raw lines of an instrument with their meaning.</summary>
internal sealed class InstrumentTraceVerb : Verb
{
    private readonly AttachedPort attached = new();

    private readonly NewRecording record = new();

    private readonly Option<string?> replay = new("--replay")
    {
        Description = "Show a recording instead of a port, the same way.",
        HelpName = "FILE",
    };

    private readonly Option<double?> seconds = NumberOption.One(
        "--for",
        "SECONDS",
        "End after so many seconds; without it, Ctrl-C ends it."
    );

    private readonly Option<bool> greet = new("--greet")
    {
        Description =
            "Greet as a host, so that an idle instrument says who it is and what it keeps. Nothing is acknowledged. "
            + "Afterwards another host has to wait 10 s.",
    };

    public InstrumentTraceVerb()
        : base(
            "trace",
            "Shows the raw lines of an attached instrument with their meaning, and why a line is dropped. It only listens."
        )
    {
        Add(attached.Port);
        Add(attached.Baud);
        Add(record.File);
        Add(replay);
        Add(seconds);
        Add(greet);
        Example("pupilbridge instrument trace /dev/ttyACM0 --greet", "shows who is there and all that happens");
        Example(
            "pupilbridge instrument trace tcp:127.0.0.1:7300 --record lines.txt --for 60",
            "records a minute without saying a word"
        );
        Example("pupilbridge instrument trace --replay lines.txt", "shows a recording");
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Port, ExitCode.Storage);
        Does(TraceAsync);
    }

    private async Task<ExitCode> TraceAsync(Call call, CancellationToken cancel)
    {
        if (call.Get(replay) is { } file)
        {
            RefuseBesidesReplay(call);
            Replaying.Show(call, file);
            return ExitCode.Done;
        }

        var longest = call.Get(seconds) ?? TimeSpan.FromDays(365).TotalSeconds;
        if (longest is <= 0 or > 366 * 86_400)
        {
            throw new CommandFailure(ExitCode.Usage, "--for must be more than 0 and at most a year, in seconds.");
        }

        var wire = await attached.OpenAsync(call).ConfigureAwait(false);
        await using (wire.ConfigureAwait(false))
        {
            using var recording = record.Create(call, call.Get(attached.Port)!);
            var output = new TraceOutput(call, recording);
            var listening = new Listening(wire, call.Get(greet) ? new Greeter() : null, output.Take);
            try
            {
                await listening.RunAsync(TimeSpan.FromSeconds(longest), cancel).ConfigureAwait(false);
            }
            catch (PortLostException lost)
            {
                throw new CommandFailure(ExitCode.Port, lost.Message, "Everything up to then was shown and recorded.");
            }
            finally
            {
                output.Sum();
            }
        }

        return ExitCode.Done;
    }

    private void RefuseBesidesReplay(Call call)
    {
        if (
            call.Get(attached.Port) is not null
            || call.IsGiven(record.File)
            || call.IsGiven(seconds)
            || call.Get(greet)
        )
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "--replay shows a file; a port, --record, --for and --greet do not go with it.",
                "Leave them out, or leave out --replay."
            );
        }
    }
}
