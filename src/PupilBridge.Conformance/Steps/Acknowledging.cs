using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Acknowledges wrongly, which must change nothing, and at last rightly.</summary>
internal static class Acknowledging
{
    /// <summary>ACKs that an instrument must ignore.</summary>
    public static async Task WrongAsync(Bench bench)
    {
        await bench
            .TryAsync(b =>
                Ignored(
                    b,
                    CheckCatalogue.AckOtherBoot,
                    new BootNumber(b.Identity.Boot.Value ^ 1).ToString(),
                    b.Beat.Last
                )
            )
            .ConfigureAwait(false);
        await bench
            .TryAsync(b => Ignored(b, CheckCatalogue.AckBeyond, b.Boot, b.Beat.Last + 1000))
            .ConfigureAwait(false);
    }

    /// <summary>An ACK of the oldest event, which the instrument then forgets.</summary>
    public static async Task RightAsync(Bench bench)
    {
        var oldest = bench.Beat.OldestKept;
        var kept = bench.Host.Log.LastOrDefault(c => c.Is(InstrumentLineKind.Event) && c.Said.Event.Sequence == oldest);
        if (WhyNot(bench, kept) is { } why)
        {
            bench.Report.Skip(CheckCatalogue.AckMoves, why);
            return;
        }

        await bench.SayAsync("ACK", RawHost.Own, bench.Boot, Bench.Text(oldest)).ConfigureAwait(false);
        var beat = await bench.NextBeatAsync().ConfigureAwait(false);
        bench.Report.Judge(
            CheckCatalogue.AckMoves,
            beat?.Said.Beat.OldestKept == oldest + 1
                ? null
                : Bench.Text($"After ACK of {oldest}, BEAT does not tell {oldest + 1} as oldest kept."),
            Bench.Text($"From {oldest} to {oldest + 1}."),
            beat?.Text
        );
    }

    /// <summary>Asks for an event that was forgotten.</summary>
    public static async Task ForgottenAsync(Bench bench)
    {
        var number = bench.Beat.OldestKept - 1;
        if (number < 1)
        {
            bench.Report.Skip(CheckCatalogue.ResendForgotten, "Nothing was forgotten yet; see ack.moves.");
            return;
        }

        await bench.QuietAsync().ConfigureAwait(false);
        // Just after a heartbeat, so that the next one that is due comes too late to be taken for the answer.
        await bench.NextBeatAsync().ConfigureAwait(false);
        var (mark, last) = (bench.Host.Mark, bench.Beat.Last);
        await bench.SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(number)).ConfigureAwait(false);
        var first = await bench
            .Host.UntilAsync(
                c => c.Is(InstrumentLineKind.Beat) || (c.Is(InstrumentLineKind.Event) && c.Said.Event.Sequence <= last),
                mark,
                0.6,
                bench.Cancel
            )
            .ConfigureAwait(false);
        await bench.QuietAsync().ConfigureAwait(false);
        var isBeat = first is not null && first.Is(InstrumentLineKind.Beat);
        bench.Report.Judge(
            CheckCatalogue.ResendForgotten,
            isBeat ? null : "No BEAT came first.",
            "The BEAT came first.",
            first?.Text
        );
    }

    private static async Task Ignored(Bench bench, Check check, string boot, long number)
    {
        var before = bench.Beat;
        if (before.OldestKept > before.Last)
        {
            bench.Report.Skip(check, "The instrument keeps no event, so that nothing could be seen.");
            return;
        }

        await bench.SayAsync("ACK", RawHost.Own, boot, Bench.Text(number)).ConfigureAwait(false);
        var after = await bench.NextBeatAsync().ConfigureAwait(false);
        bench.Report.Judge(
            check,
            after is null ? "No BEAT came."
                : after.Said.Beat.OldestKept != before.OldestKept ? "The oldest kept has moved."
                : null,
            "The oldest kept stayed.",
            after?.Text
        );
    }

    /// <summary>What is acknowledged is forgotten, and this suite keeps no journal.</summary>
    private static string? WhyNot(Bench bench, Crossed? kept)
    {
        if (!bench.IsAnythingKept || kept is null)
        {
            return "The instrument keeps no event, or a GAP is the oldest thing that it keeps.";
        }

        var isOfExam =
            kept.Said.Event.Kind
            is not (
                InstrumentEventKind.ModeChanged
                or InstrumentEventKind.RoomLight
                or InstrumentEventKind.FixationChanged
                or InstrumentEventKind.LensMoved
            );
        return isOfExam && !bench.Plan.MayDiscard
            ? "The oldest event kept may belong to an exam that no host has recorded; it is acknowledged only with --discard."
            : null;
    }
}
