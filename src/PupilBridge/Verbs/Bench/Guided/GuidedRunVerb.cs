using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Verbs.Bench.Runs;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary>A command that puts an instrument on the bench, or goes on with a run that is open, and follows it to its end.</summary>
internal abstract class GuidedRunVerb : Verb
{
    private readonly string kind;
    private readonly Typist typist = new();
    private readonly Option<string?> instrument = InstrumentOption.New();

    private readonly Option<long?> resume = new("--resume")
    {
        Description = "Go on with this run, which is open.",
        HelpName = "RUN",
    };

    private readonly Option<double?> temperature = NumberOption.One(
        "--temperature",
        "T",
        "The room's temperature, in °C."
    );

    private readonly Option<string?> conditions = new("--conditions")
    {
        Description = "Other conditions, for the certificate.",
        HelpName = "TEXT",
    };

    private readonly Option<bool> finish = new("--finish")
    {
        Description = "Finish the run without asking once nothing is missing.",
    };

    private readonly Option<bool> json = CommonOptions.Json("Print the run as it ended as one JSON document.");

    /// <summary>Makes the command.</summary>
    /// <param name="name">The word on the command line.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="kind">The run's kind, as the desk names it.</param>
    protected GuidedRunVerb(string name, string description, string kind)
        : base(name, description)
    {
        this.kind = kind;
        foreach (
            var option in (ReadOnlySpan<Option>)
                [instrument, resume, temperature, conditions, finish, typist.Option, json]
        )
        {
            Add(option);
        }

        EndsWith([.. DeskAccess.Exits, ExitCode.Interrupted]);
        Does(RunAsync);
    }

    /// <summary>Puts in what this kind of run needs beyond what all need.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="entry">The beginning.</param>
    protected virtual BeginRunEntry With(Call call, BeginRunEntry entry) => entry;

    /// <summary>What the technician does, told once at the beginning.</summary>
    protected abstract string Way { get; }

    private async Task<ExitCode> RunAsync(Call call, CancellationToken cancel)
    {
        typist.Stamp(call);
        var sending = new EntrySending(call, await DeskAccess.ToServiceAsync(call, cancel).ConfigureAwait(false));
        await using (sending.ConfigureAwait(false))
        {
            var number = call.Get(resume) is { } open
                ? await ResumableAsync(sending, open, cancel).ConfigureAwait(false)
                : await BeginAsync(call, sending, cancel).ConfigureAwait(false);
            var ended = await FollowAsync(call, sending, number, cancel).ConfigureAwait(false);
            Print(call, ended);
            return ended.Line.State != "broken-off"
                ? ExitCode.Done
                : throw new CommandFailure(
                    ExitCode.Refused,
                    $"Run {number} was broken off: {ended.Why}",
                    "What was measured is kept; begin a new run."
                );
        }
    }

    private async Task<BenchRunView> FollowAsync(Call call, EntrySending sending, long number, CancellationToken cancel)
    {
        var guide = new RunGuide(call, typist, sending, call.Get(finish));
        try
        {
            call.Remark(Way);
            return await guide.FollowAsync(number, cancel).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            call.Remark($"Run {number} stays open. Go on with: {Again(number)}");
            throw;
        }
        catch (CommandFailure gone) when (gone.Code == ExitCode.NoService)
        {
            throw new CommandFailure(
                ExitCode.NoService,
                $"The service has ended. Run {number} is open, and every reading that was shown is kept.",
                $"Start it with 'pupilbridge serve', then go on with: {Again(number)}"
            );
        }
    }

    private string Again(long number) => $"pupilbridge calibration {Name} --resume {number}";

    private async Task<long> ResumableAsync(EntrySending sending, long number, CancellationToken cancel)
    {
        var run = await sending.Access.RunAsync(number, cancel).ConfigureAwait(false);
        if (run.Line.Kind != kind)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                $"Run {number} is of another kind: {run.Line.Kind}.",
                $"Go on with: {NextWords.Resume(run.Line)}"
            );
        }

        return run.Line.State == "open"
            ? number
            : throw new CommandFailure(
                ExitCode.Refused,
                $"Run {number} is not open any more: {run.Line.State}{(run.Why is { } why ? $", {why}" : "")}.",
                $"Look at it with 'pupilbridge calibration show {number}', or begin a new run."
            );
    }

    private async Task<long> BeginAsync(Call call, EntrySending sending, CancellationToken cancel)
    {
        var on = await sending.Access.InstrumentAsync(call.Get(instrument), cancel).ConfigureAwait(false);
        var stamp = typist.Stamp(call);
        var entry = With(
            call,
            new BeginRunEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Instrument = on.Instrument,
                Kind = kind,
                TemperatureCelsius = call.Get(temperature),
                Conditions = call.Get(conditions),
            }
        );
        var (_, run) = await sending.SendAsync(entry, cancel).ConfigureAwait(false);
        call.Remark($"Run {run} is open: {kind} of {on.Instrument}. Exams begin again when it has ended.");
        return run!.Value;
    }

    private void Print(Call call, BenchRunView run)
    {
        if (call.Get(json))
        {
            call.PrintJson(run);
            return;
        }

        RunText.PrintHead(call, run);
        RunText.PrintOutcome(call, run);
        call.Print();
        call.Print(NextWords.Of(run));
    }
}
