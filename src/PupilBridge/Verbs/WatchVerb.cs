using System.CommandLine;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Watch;
using StreamJsonRpc;

namespace PupilBridge.Verbs;

/// <summary><c>watch</c>: what goes on at the instruments, live.</summary>
internal sealed class WatchVerb : Verb
{
    private readonly Option<string?> instrument = new("--instrument")
    {
        Description = "Only the instrument with this serial number.",
        HelpName = "SERIAL",
    };

    private readonly Option<bool> json = CommonOptions.Json("Print each change as one JSON document on a line.");

    public WatchVerb()
        : base("watch", "Shows live what goes on: positions, mode, the lit eye, what is asked for. Ctrl-C ends it.")
    {
        Add(instrument);
        Add(json);
        Example("pupilbridge watch", "shows all instruments in this window");
        Example("pupilbridge watch --json --instrument QA-1 > lane.jsonl", "keeps every change of one instrument");
        EndsWith(ExitCode.NoService);
        Does(WatchAsync);
    }

    private async Task<ExitCode> WatchAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.ToServiceAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            try
            {
                var lanes = access.Desk.WatchAsync(call.Get(instrument), cancel);
                await ShowAsync(call, lanes, cancel).ConfigureAwait(false);
            }
            catch (OperationCanceledException) when (cancel.IsCancellationRequested)
            {
                // Ctrl-C is how a watcher leaves.
                return ExitCode.Done;
            }
            catch (ConnectionLostException)
            {
                throw new CommandFailure(
                    ExitCode.NoService,
                    "The service has ended.",
                    "Start it with 'pupilbridge serve' and watch again; instruments keep what was not recorded."
                );
            }
        }

        return ExitCode.Done;
    }

    private async Task ShowAsync(Call call, IAsyncEnumerable<LaneView> lanes, CancellationToken cancel)
    {
        if (call.Get(json) || !call.Terminal.IsInteractive)
        {
            await foreach (var lane in lanes.WithCancellation(cancel).ConfigureAwait(false))
            {
                Print(call, lane);
            }

            return;
        }

        var screen = new WatchScreen(call.Terminal, call.Time);
        screen.Open();
        try
        {
            screen.Draw();
            await foreach (var lane in lanes.WithCancellation(cancel).ConfigureAwait(false))
            {
                screen.Show(lane);
            }
        }
        finally
        {
            screen.Close();
        }
    }

    private void Print(Call call, LaneView lane)
    {
        if (call.Get(json))
        {
            call.PrintJsonLine(lane);
            return;
        }

        foreach (var line in LaneText.Lines(lane, call.Time.GetUtcNow()).Append(""))
        {
            call.Print(line);
        }

        call.Terminal.Out.Flush();
    }
}
