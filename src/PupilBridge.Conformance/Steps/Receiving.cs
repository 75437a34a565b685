using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Sends lines that must be dropped or passed over, and after each a good one that must work.</summary>
internal static class Receiving
{
    private static readonly string Greeting = $"WHO,{RawHost.Own},1,1";

    public static async Task RunAsync(Bench bench)
    {
        await bench.TryAsync(NoVersion).ConfigureAwait(false);
        await bench
            .TryAsync(b => Dropped(b, CheckCatalogue.ReceiveBadCheck, WithWrongCheck() + "\n"))
            .ConfigureAwait(false);
        await bench
            .TryAsync(b => Dropped(b, CheckCatalogue.ReceiveCut, $"WHO,{RawHost.Own}\n\n"))
            .ConfigureAwait(false);
        var run = new string('A', 150) + RawHost.WithCheck(Greeting) + "\n" + new string('B', 121) + "\n";
        await bench.TryAsync(b => Dropped(b, CheckCatalogue.ReceiveTooLong, run)).ConfigureAwait(false);
        var bad = RawHost.WithCheck($"WHO,{RawHost.Own},1") + "\n" + RawHost.WithCheck($"WHO,{RawHost.Own},1,x") + "\n";
        await bench.TryAsync(b => Dropped(b, CheckCatalogue.ReceiveBadField, bad)).ConfigureAwait(false);
        var unknown = RawHost.WithCheck($"TEMPERATURE,{RawHost.Own},31") + "\n";
        await bench.TryAsync(b => Dropped(b, CheckCatalogue.ReceiveUnknownType, unknown)).ConfigureAwait(false);
        await bench
            .TryAsync(b => Taken(b, CheckCatalogue.ReceiveCarriageReturn, RawHost.WithCheck(Greeting) + "\r\n"))
            .ConfigureAwait(false);
        await bench.TryAsync(InPieces).ConfigureAwait(false);
        var longer = RawHost.WithCheck(Greeting + ",later") + "\n";
        await bench.TryAsync(b => Taken(b, CheckCatalogue.ReceiveFurtherFields, longer)).ConfigureAwait(false);
    }

    private static string WithWrongCheck()
    {
        var right = RawHost.WithCheck(Greeting);
        return right[..^1] + (right[^1] == '0' ? '1' : '0');
    }

    private static async Task Dropped(Bench bench, Check check, string bad)
    {
        var mark = bench.Host.Mark;
        await bench.Host.SayTextAsync(bad).ConfigureAwait(false);
        await bench.Host.ListenAsync(0.5, bench.Cancel).ConfigureAwait(false);
        var answer = bench
            .Host.Since(mark)
            .FirstOrDefault(c =>
                c.IsGood
                && c.Said.Kind
                    is not (InstrumentLineKind.Beat or InstrumentLineKind.Event or InstrumentLineKind.Position)
            );
        if (answer is not null)
        {
            bench.Report.Fail(check, "It was answered.", answer.Text);
            await bench.QuietAsync().ConfigureAwait(false);
            return;
        }

        var id = await bench.GreetAsync().ConfigureAwait(false);
        bench.Report.Judge(
            check,
            id is null ? "The good greeting after it got no ID within 1.5 s." : null,
            "No answer; the greeting after it was answered."
        );
    }

    private static async Task Taken(Bench bench, Check check, string odd)
    {
        var mark = bench.Host.Mark;
        await bench.Host.SayTextAsync(odd).ConfigureAwait(false);
        var id = await bench.IdentityAsync(mark, 1.5).ConfigureAwait(false);
        await bench.QuietAsync().ConfigureAwait(false);
        bench.Report.Judge(
            check,
            id is null ? "The greeting got no ID within 1.5 s." : null,
            "The greeting was answered."
        );
    }

    /// <summary>A line is whole at its LF, in however many reads its bytes come.</summary>
    private static async Task InPieces(Bench bench)
    {
        var mark = bench.Host.Mark;
        foreach (var piece in (RawHost.WithCheck(Greeting) + "\n").Chunk(9))
        {
            await bench.Host.SayTextAsync(new string(piece)).ConfigureAwait(false);
            await bench.Host.ListenAsync(0.12, bench.Cancel).ConfigureAwait(false);
        }

        var id = await bench.IdentityAsync(mark, 1.5).ConfigureAwait(false);
        await bench.QuietAsync().ConfigureAwait(false);
        bench.Report.Judge(
            CheckCatalogue.ReceivePieces,
            id is null ? "The greeting got no ID within 1.5 s." : null,
            "The greeting was answered."
        );
    }

    private static async Task NoVersion(Bench bench)
    {
        var mark = bench.Host.Mark;
        await bench.SayAsync("WHO", RawHost.Own, "98", "99").ConfigureAwait(false);
        var answer = await bench
            .Host.UntilAsync(
                c => c.IsGood && c.Said.Kind is InstrumentLineKind.NoVersion or InstrumentLineKind.Identity,
                mark,
                1.5,
                bench.Cancel
            )
            .ConfigureAwait(false);
        var against = answer?.Said.Kind switch
        {
            null => "No answer within 1.5 s.",
            InstrumentLineKind.Identity => "It was granted.",
            _ when answer.Said.Versions.Highest >= 98
                    || answer.Said.Versions.Lowest > bench.Identity.Version
                    || answer.Said.Versions.Highest < bench.Identity.Version =>
                "The range does not hold the version that it spoke before, or holds the one it refused.",
            _ => null,
        };
        bench.Report.Judge(CheckCatalogue.VersionNone, against, "NOVERSION.", answer?.Text);
        await bench.QuietAsync().ConfigureAwait(false);
    }
}
