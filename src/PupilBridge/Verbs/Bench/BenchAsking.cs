using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Bench;

/// <summary>Questions to the bench that must have an answer.</summary>
internal static class BenchAsking
{
    /// <summary>One run.</summary>
    /// <param name="access">The way to the desk.</param>
    /// <param name="run">Its number.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="CommandFailure">There is no such run.</exception>
    public static async Task<BenchRunView> RunAsync(this DeskAccess access, long run, CancellationToken cancel) =>
        await access.AskBenchAsync(bench => bench.ShowRunAsync(run, cancel)).ConfigureAwait(false)
        ?? throw NoSuchRun(run);

    /// <summary>The bench at one look.</summary>
    /// <param name="access">The way to the desk.</param>
    /// <param name="cancel">Gives up.</param>
    public static Task<BenchOverview> OverviewAsync(this DeskAccess access, CancellationToken cancel) =>
        access.AskBenchAsync(bench => bench.BenchAsync(cancel));

    /// <summary>The instrument that a person means: the one named, else the only one there is.</summary>
    /// <param name="access">The way to the desk.</param>
    /// <param name="named">Its serial number; null if nobody named one.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="CommandFailure">It is not known, or it is not clear which is meant.</exception>
    public static async Task<BenchInstrument> InstrumentAsync(
        this DeskAccess access,
        string? named,
        CancellationToken cancel
    )
    {
        var all = (await access.OverviewAsync(cancel).ConfigureAwait(false)).Instruments;
        if (named is null)
        {
            return all switch
            {
                [var only] => only,
                [] => throw new CommandFailure(
                    ExitCode.NotFound,
                    "No instrument has been met here yet.",
                    "Connect one and switch it on while 'pupilbridge serve' runs."
                ),
                _ => throw new CommandFailure(
                    ExitCode.Usage,
                    $"It is not said which instrument; known are {Names(all)}.",
                    "Name it with --instrument SERIAL."
                ),
            };
        }

        return all.FirstOrDefault(one => one.Instrument == named)
            ?? throw new CommandFailure(
                ExitCode.NotFound,
                $"Instrument {named} has never been met here.",
                all.Count == 0
                    ? "Connect it and switch it on while 'pupilbridge serve' runs."
                    : $"Known are {Names(all)}."
            );
    }

    /// <summary>There is no such run.</summary>
    /// <param name="run">Its number.</param>
    public static CommandFailure NoSuchRun(long run) =>
        new(
            ExitCode.NotFound,
            $"There is no bench run {run}.",
            "'pupilbridge calibration list' shows those that there are."
        );

    private static string Names(IReadOnlyList<BenchInstrument> all) =>
        string.Join(", ", all.Select(one => one.Instrument));
}
