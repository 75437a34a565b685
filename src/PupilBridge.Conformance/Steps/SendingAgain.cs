using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Asks for events again, and waits for them to come unasked.</summary>
internal static class SendingAgain
{
    public static async Task RunAsync(Bench bench)
    {
        if (!bench.IsAnythingKept)
        {
            foreach (
                var check in (Check[])
                    [CheckCatalogue.ResendAsked, CheckCatalogue.ResendPastLast, CheckCatalogue.ResendUnasked]
            )
            {
                bench.Report.Skip(
                    check,
                    "The instrument keeps no event; press a key at it, or switch it off and on, and run this again."
                );
            }

            return;
        }

        await bench.TryAsync(Asked).ConfigureAwait(false);
        await bench.TryAsync(PastLast).ConfigureAwait(false);
        await bench.TryAsync(Unasked).ConfigureAwait(false);
    }

    private static async Task Asked(Bench bench)
    {
        var beat = bench.Beat;
        foreach (var from in (long[])[beat.Last, beat.OldestKept])
        {
            var mark = bench.Host.Mark;
            await bench.SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(from)).ConfigureAwait(false);
            var first = await bench
                .Host.UntilAsync(
                    c => c.Is(InstrumentLineKind.Event) && c.Said.Event.Sequence <= beat.Last,
                    mark,
                    1,
                    bench.Cancel
                )
                .ConfigureAwait(false);
            await bench.QuietAsync().ConfigureAwait(false);
            var isRight = first is not null && (first.Said.Event.Sequence == from || IsGapOver(first, from));
            if (!isRight)
            {
                bench.Report.Fail(
                    CheckCatalogue.ResendAsked,
                    Bench.Text($"RESEND from {from} was not answered within 1 s by that event."),
                    first?.Text
                );
                return;
            }
        }

        bench.Report.Pass(CheckCatalogue.ResendAsked, Bench.Text($"From {beat.Last}, and from {beat.OldestKept}."));
    }

    private static bool IsGapOver(Crossed line, long number) =>
        line.Said.Event.Kind == InstrumentEventKind.EventsLost
        && line.Said.Event.FirstLost <= number
        && line.Said.Event.Sequence >= number;

    private static async Task PastLast(Bench bench)
    {
        // From the last event on first, so that the two seconds of waiting begin anew.
        await bench.SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(bench.Beat.Last)).ConfigureAwait(false);
        await bench.QuietAsync().ConfigureAwait(false);
        var (mark, last) = (bench.Host.Mark, LastSeen(bench));
        await bench.SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(last + 1000)).ConfigureAwait(false);
        await bench.Host.ListenAsync(0.8, bench.Cancel).ConfigureAwait(false);
        var old = bench
            .Host.Since(mark)
            .FirstOrDefault(c => c.Is(InstrumentLineKind.Event) && c.Said.Event.Sequence <= last);
        bench.Report.Judge(
            CheckCatalogue.ResendPastLast,
            old is null ? null : "An event that lies before came again.",
            "Nothing came for 0.8 s.",
            old?.Text
        );
    }

    private static long LastSeen(Bench bench) =>
        Math.Max(
            bench.Beat.Last,
            bench.Host.Log.Where(c => c.Is(InstrumentLineKind.Event)).Max(c => (long?)c.Said.Event.Sequence) ?? 0
        );

    private static async Task Unasked(Bench bench)
    {
        await bench
            .SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(bench.Beat.OldestKept))
            .ConfigureAwait(false);
        await bench.QuietAsync().ConfigureAwait(false);
        var (mark, seen) = (bench.Host.Mark, LastSeen(bench));
        var again = await bench
            .Host.UntilAsync(
                c => c.Is(InstrumentLineKind.Event) && c.Said.Event.Sequence <= seen,
                mark,
                3.5,
                bench.Cancel
            )
            .ConfigureAwait(false);
        var before = bench.Host.Log.TakeWhile(c => c != again).Where(c => c.Is(InstrumentLineKind.Event)).ToList();
        if (again is not null && before.Count > 0)
        {
            Judge(bench, before, again);
        }
        else if (before.Count > 0 && bench.Host.Now - before[^1].At < TimeSpan.FromSeconds(3))
        {
            bench.Report.Skip(
                CheckCatalogue.ResendUnasked,
                "Events happened all the time, and each may put the repetition off; leave the instrument alone."
            );
        }
        else
        {
            bench.Report.Fail(CheckCatalogue.ResendUnasked, "Nothing came again within 3.5 s.");
        }

        await bench.QuietAsync().ConfigureAwait(false);
    }

    /// <summary>
    /// What happens meanwhile goes out at once. The section lets the two seconds count from the oldest event's last byte or from
    /// that of any later one: not before the one, not long after the other.
    /// </summary>
    private static void Judge(Bench bench, List<Crossed> before, Crossed again)
    {
        var itself = before.LastOrDefault(c => c.Said.Event.Sequence == again.Said.Event.Sequence) ?? before[^1];
        var (least, most) = ((again.At - itself.At).TotalSeconds, (again.At - before[^1].At).TotalSeconds);
        var against =
            least < 1.8 ? Bench.Text($"It came after {least:0.00} s already.")
            : most > 3 ? Bench.Text($"It came only {most:0.00} s after the last event.")
            : again.Said.Event.Sequence > bench.Beat.OldestKept && !IsGapOver(again, bench.Beat.OldestKept)
                ? "It did not begin with the oldest kept."
            : null;
        bench.Report.Judge(
            CheckCatalogue.ResendUnasked,
            against,
            Bench.Text($"After {least:0.00} s, from the oldest kept."),
            again.Text
        );
    }
}
