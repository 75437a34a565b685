using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Plays a second host that does not hold the instrument.</summary>
internal static class OtherHost
{
    public static async Task RunAsync(Bench bench)
    {
        await bench.TryAsync(Refused).ConfigureAwait(false);
        await bench.TryAsync(Foreign).ConfigureAwait(false);
        await bench.TryAsync(Rate).ConfigureAwait(false);
    }

    private static async Task Refused(Bench bench)
    {
        await bench.KeepHoldAsync().ConfigureAwait(false);
        var mark = bench.Host.Mark;
        await bench.SayAsync("WHO", RawHost.Other, "1", "1").ConfigureAwait(false);
        var answer = await AnswerAsync(bench, mark, InstrumentLineKind.Identity).ConfigureAwait(false);
        bench.Report.Judge(CheckCatalogue.HoldRefused, Against(answer), "HELD, and it names the holder.", answer?.Text);
        if (answer?.Said.Kind == InstrumentLineKind.Identity)
        {
            await bench.GreetAsync(word: "TAKE").ConfigureAwait(false);
        }
    }

    private static async Task Foreign(Bench bench)
    {
        var before = bench.Beat;
        foreach (
            var line in (string[])
                [
                    $"ACK,{RawHost.Other},{bench.Boot},{Bench.Text(before.Last)}",
                    $"CMD,{RawHost.Other},{bench.NewCommand()},POLISH",
                ]
        )
        {
            await bench.Host.ListenAsync(1.2, bench.Cancel).ConfigureAwait(false);
            await bench.KeepHoldAsync().ConfigureAwait(false);
            var mark = bench.Host.Mark;
            await bench.Host.SayAsync(line).ConfigureAwait(false);
            var answer = await AnswerAsync(bench, mark, InstrumentLineKind.Reply).ConfigureAwait(false);
            bench.Report.Judge(CheckCatalogue.HoldForeign, Against(answer), "HELD.", answer?.Text);
        }

        var after = await bench.NextBeatAsync().ConfigureAwait(false);
        if (before.OldestKept > before.Last)
        {
            bench.Report.Skip(
                CheckCatalogue.AckForeign,
                "The instrument keeps no event, so that nothing could be seen."
            );
            return;
        }

        bench.Report.Judge(
            CheckCatalogue.AckForeign,
            after?.Said.Beat.OldestKept == before.OldestKept ? null : "The oldest kept has moved, or no BEAT came.",
            "The oldest kept stayed.",
            after?.Text
        );
    }

    private static async Task Rate(Bench bench)
    {
        await bench.Host.ListenAsync(1.2, bench.Cancel).ConfigureAwait(false);
        var mark = bench.Host.Mark;
        for (var i = 0; i < 6; i++)
        {
            await bench.SayAsync("WHO", RawHost.Other, "1", "1").ConfigureAwait(false);
            await bench.Host.ListenAsync(0.14, bench.Cancel).ConfigureAwait(false);
        }

        var held = bench.Host.Since(mark).Where(c => c.Is(InstrumentLineKind.Held)).ToList();
        if (held.Count == 0)
        {
            bench.Report.Skip(CheckCatalogue.HoldRate, "No HELD came at all; see hold.refused.");
            return;
        }

        bench.Report.Judge(
            CheckCatalogue.HoldRate,
            held.Count == 1 ? null : Bench.Text($"{held.Count} came within 0.9 s."),
            "One, on six greetings within 0.9 s.",
            held[^1].Text
        );
    }

    private static Task<Crossed?> AnswerAsync(Bench bench, int mark, InstrumentLineKind wrong) =>
        bench.Host.UntilAsync(c => c.Is(InstrumentLineKind.Held) || c.Is(wrong), mark, 1.5, bench.Cancel);

    private static string? Against(Crossed? answer) =>
        answer is null ? "No answer within 1.5 s."
        : answer.Said.Kind != InstrumentLineKind.Held ? "It was granted."
        : answer.Said.Held.Holder.ToString() != RawHost.Own ? "HELD names another host than the one that holds it."
        : null;
}
