using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Gives commands that an instrument must refuse; none that it would carry out.</summary>
internal static class Commanding
{
    private const string BadTrain = "TRAIN,DIRECT,0,1000,1000";

    public static async Task RunAsync(Bench bench)
    {
        await bench.TryAsync(UnknownAsync).ConfigureAwait(false);
        await bench.TryAsync(RefusedAsync).ConfigureAwait(false);
    }

    private static async Task UnknownAsync(Bench bench)
    {
        var number = bench.NewCommand();
        var unknown = await AskAsync(bench, number, "POLISH,all").ConfigureAwait(false);
        bench.Report.Judge(
            CheckCatalogue.CommandUnknown,
            Against(unknown, number, CommandAnswer.Unknown),
            "DONE, UNKNOWN.",
            unknown?.Text
        );

        await OnceAsync(bench, number, unknown).ConfigureAwait(false);
    }

    private static async Task RefusedAsync(Bench bench)
    {
        var takesTrains = TakesTrains(bench);
        foreach (var train in (string[])[BadTrain, "TRAIN,DIRECT", "TRAIN,DIRECT,3,60001,1000"])
        {
            // Without the ability the fields do not count.
            await RefusedAsync(bench, train, takesTrains ? CommandAnswer.Refused : CommandAnswer.Unknown)
                .ConfigureAwait(false);
        }

        if (!takesTrains)
        {
            await RefusedAsync(bench, "TRAIN,DIRECT,3,1000,3000", CommandAnswer.Unknown).ConfigureAwait(false);
        }
    }

    private static async Task RefusedAsync(Bench bench, string command, CommandAnswer wanted)
    {
        var number = bench.NewCommand();
        var reply = await AskAsync(bench, number, command).ConfigureAwait(false);
        bench.Report.Judge(
            CheckCatalogue.CommandRefused,
            Against(reply, number, wanted),
            "None of the trains was taken.",
            reply?.Text
        );
    }

    private static bool TakesTrains(Bench bench) =>
        (bench.Identity.Abilities & InstrumentAbilities.StimulusProfile) != 0;

    private static async Task OnceAsync(Bench bench, uint number, Crossed? first)
    {
        var takesTrains = TakesTrains(bench);
        if (first is null)
        {
            bench.Report.Skip(CheckCatalogue.CommandOnce, "The first DONE did not come; see command.unknown.");
            return;
        }

        // Under the same number another command: carried out anew it would be refused, remembered it is not.
        var again = await AskAsync(bench, number, takesTrains ? BadTrain : "POLISH,all").ConfigureAwait(false);
        bench.Report.Judge(
            CheckCatalogue.CommandOnce,
            again is null ? "The repetition was not answered within 1.5 s."
                : again.Text != first.Text ? "The repetition was answered otherwise."
                : null,
            takesTrains
                ? "The same DONE, though the command under the number was another one."
                : "The same DONE; without the ability P more cannot be seen.",
            again?.Text
        );
    }

    private static async Task<Crossed?> AskAsync(Bench bench, uint number, string command)
    {
        var mark = bench.Host.Mark;
        await bench.SayAsync("CMD", RawHost.Own, Bench.Text(number), command).ConfigureAwait(false);
        return await bench
            .Host.UntilAsync(c => c.Is(InstrumentLineKind.Reply), mark, 1.5, bench.Cancel)
            .ConfigureAwait(false);
    }

    private static string? Against(Crossed? reply, uint number, CommandAnswer wanted) =>
        reply is null ? "No DONE within 1.5 s."
        : reply.Said.Reply.Number != number || reply.Said.Reply.Host.ToString() != RawHost.Own
            ? "DONE of another command."
        : reply.Said.Reply.Answer != wanted ? "Another answer."
        : null;
}
