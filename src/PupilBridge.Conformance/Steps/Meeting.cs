using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Greets, and looks at the identity.</summary>
internal static class Meeting
{
    /// <summary>Meets the instrument.</summary>
    /// <returns>Whether there is one that can be examined further.</returns>
    public static async Task<bool> RunAsync(Bench bench)
    {
        await bench.Host.UntilAsync(c => c.IsGood, 0, 1.5, bench.Cancel).ConfigureAwait(false);
        var mark = bench.Host.Mark;
        if (await GrantedAsync(bench).ConfigureAwait(false) is not { } id)
        {
            return Refused(bench, mark);
        }

        await bench.QuietAsync().ConfigureAwait(false);
        var met = id.Said.Identity;
        bench.Report.Instrument = Bench.Text($"{met.Model} {met.Serial}, firmware {met.Firmware}, boot {met.Boot}");
        Serial(bench, id);
        await bench.TryAsync(GreetedAsync).ConfigureAwait(false);
        return true;
    }

    // A host that has gone keeps its hold for 10 s.
    private static async Task<Crossed?> GrantedAsync(Bench bench)
    {
        for (var i = 0; i < 5; i++)
        {
            var mark = bench.Host.Mark;
            await bench.SayAsync("WHO", RawHost.Own, "1", "1").ConfigureAwait(false);
            var answer = await bench
                .Host.UntilAsync(
                    c =>
                        c.IsGood
                        && c.Said.Kind
                            is InstrumentLineKind.Identity
                                or InstrumentLineKind.Held
                                or InstrumentLineKind.NoVersion,
                    mark,
                    3,
                    bench.Cancel
                )
                .ConfigureAwait(false);
            if (answer?.Said.Kind is InstrumentLineKind.Identity)
            {
                return answer;
            }

            if (answer is not null)
            {
                await bench.Host.ListenAsync(3, bench.Cancel).ConfigureAwait(false);
            }
        }

        return null;
    }

    private static bool Refused(Bench bench, int mark)
    {
        var heard = bench.Host.Since(mark).Where(c => c.IsGood).ToList();
        if (heard.LastOrDefault(c => c.Said.Kind == InstrumentLineKind.Held) is { } held)
        {
            bench.Report.Skip(
                CheckCatalogue.IdentityComplete,
                Bench.Text($"Host {held.Said.Held.Holder} holds the instrument; end it and run the check again.")
            );
        }
        else if (heard.LastOrDefault(c => c.Said.Kind == InstrumentLineKind.NoVersion) is { } other)
        {
            bench.Report.Skip(
                CheckCatalogue.IdentityComplete,
                Bench.Text(
                    $"It speaks versions {other.Said.Versions.Lowest} to {other.Said.Versions.Highest} only; this suite checks version 1."
                )
            );
        }
        else
        {
            bench.Report.Fail(CheckCatalogue.IdentityComplete, "Five greetings in 15 s got no ID.");
        }

        return false;
    }

    private static void Serial(Bench bench, Crossed id)
    {
        if (bench.Plan.Serial is not { } expected)
        {
            bench.Report.Skip(
                CheckCatalogue.IdentitySerial,
                "Name the serial number that stands on the instrument (--serial); one that claims another's cannot be told otherwise."
            );
            return;
        }

        var claimed = id.Said.Identity.Serial.ToString();
        bench.Report.Judge(
            CheckCatalogue.IdentitySerial,
            claimed == expected ? null : $"It claims {claimed}, and {expected} stands on it.",
            $"{claimed}.",
            id.Text
        );
    }

    private static async Task GreetedAsync(Bench bench)
    {
        var id = await bench.GreetAsync().ConfigureAwait(false);
        if (id is null)
        {
            bench.Report.Fail(CheckCatalogue.IdentityComplete, "A greeting got no ID within 1.5 s.");
            return;
        }

        Complete(bench, id);
    }

    private static void Complete(Bench bench, Crossed id)
    {
        var lines = bench.Host.Log.SkipWhile(c => c != id).Skip(1).Where(c => c.IsFromInstrument).ToList();
        var expected = bench.Identity.StopCount + 2;
        for (var i = 0; i < expected; i++)
        {
            var line = i < lines.Count ? lines[i] : null;
            var isRight =
                line is { IsGood: true }
                && (
                    i < expected - 2
                        ? line.Is(InstrumentLineKind.Stop) && line.Said.Stop.Index == i + 1
                        : line.Is(InstrumentLineKind.Scale)
                            && line.Said.Scale.Eye == (i == expected - 2 ? Eye.Right : Eye.Left)
                );
            if (!isRight)
            {
                var wanted =
                    i < expected - 2 ? Bench.Text($"STOP {i + 1}")
                    : i == expected - 2 ? "SCALE R"
                    : "SCALE L";
                bench.Report.Fail(
                    CheckCatalogue.IdentityComplete,
                    $"Where {wanted} belongs came another line, or none.",
                    line?.Text
                );
                return;
            }
        }

        bench.Report.Pass(CheckCatalogue.IdentityComplete, Bench.Text($"ID, {expected - 2} STOP, two SCALE."));
        var next = lines
            .Skip(expected)
            .FirstOrDefault(c => c.IsGood && c.Said.Kind is InstrumentLineKind.Beat or InstrumentLineKind.Event);
        bench.Report.Judge(
            CheckCatalogue.IdentityBeat,
            next is not null && next.Is(InstrumentLineKind.Beat) ? null : "An event came first, or nothing at all.",
            "The BEAT came first.",
            next?.Text
        );
    }
}
