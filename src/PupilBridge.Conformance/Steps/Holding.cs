using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Lets another host take over, fall silent, and lose the hold.</summary>
internal static class Holding
{
    public static async Task RunAsync(Bench bench)
    {
        await bench.TryAsync(Taken).ConfigureAwait(false);
        await bench.TryAsync(Lapsing).ConfigureAwait(false);
    }

    private static async Task Lapsing(Bench bench)
    {
        // Whoever holds it now falls silent; in a first turn that is the other host already.
        await bench.GreetAsync(RawHost.Other, "TAKE").ConfigureAwait(false);
        await Silent(bench).ConfigureAwait(false);
        var id = await bench.GreetAsync().ConfigureAwait(false);
        if (id is null)
        {
            // After a long silence something may stand on the line before it; a host greets again, too.
            bench.Unsteady.Add(new(CheckCatalogue.HoldLapses, CheckOutcome.Failed, "The first WHO got no ID.", null));
            id = await bench.GreetAsync().ConfigureAwait(false);
        }

        bench.Report.Judge(
            CheckCatalogue.HoldLapses,
            id is null ? "WHO was not granted after 13 s of the holder's silence." : null,
            "Granted."
        );
        if (id is null)
        {
            await bench.GreetAsync(word: "TAKE").ConfigureAwait(false);
        }
    }

    private static async Task Taken(Bench bench)
    {
        // HELD goes out once a second at most; the one before must not stand in the way.
        await bench.Host.ListenAsync(1.2, bench.Cancel).ConfigureAwait(false);
        var id = await bench.GreetAsync(RawHost.Other, "TAKE").ConfigureAwait(false);
        var mark = bench.Host.Mark;
        await bench.KeepHoldAsync().ConfigureAwait(false);
        var held = await bench
            .Host.UntilAsync(c => c.Is(InstrumentLineKind.Held), mark, 1.5, bench.Cancel)
            .ConfigureAwait(false);
        bench.Report.Judge(
            CheckCatalogue.HoldTaken,
            id is null ? "TAKE got no ID within 1.5 s."
                : held is null ? "The host before got no HELD within 1.5 s."
                : held.Said.Held.Holder.ToString() != RawHost.Other ? "HELD names another host."
                : null,
            "ID for the one, HELD for the other.",
            held?.Text
        );
    }

    private static async Task Silent(Bench bench)
    {
        var lastHeard = bench.Host.Log.LastOrDefault(c =>
            !c.IsFromInstrument && c.Fields is [_, var host, ..] && host == RawHost.Other
        );
        var mark = bench.Host.Mark;
        await bench.Host.ListenAsync(13, bench.Cancel).ConfigureAwait(false);
        if (!bench.IsAnythingKept || lastHeard is null)
        {
            bench.Report.Skip(CheckCatalogue.HoldSilent, "The instrument keeps no event that it could have sent.");
            return;
        }

        // Half a second for what was under way when the hold lapsed.
        var border = lastHeard.At + TimeSpan.FromSeconds(10.5);
        var late = bench
            .Host.Since(mark)
            .FirstOrDefault(c =>
                c.At > border && c.IsGood && c.Said.Kind is InstrumentLineKind.Event or InstrumentLineKind.Position
            );
        bench.Report.Judge(
            CheckCatalogue.HoldSilent,
            late is null ? null : "An event or POS came all the same.",
            "Heartbeats only.",
            late?.Text
        );
    }
}
