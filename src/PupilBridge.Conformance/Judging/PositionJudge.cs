using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at the live positions: how often, and never while events wait.</summary>
internal static class PositionJudge
{
    private const string NoneCame = "No POS came; somebody has to move a scale (--with-person).";

    public static void Judge(Bench bench)
    {
        var positions = bench.Host.Log.Where(c => c.Is(InstrumentLineKind.Position)).ToList();
        if (positions.Count < 2)
        {
            bench.Report.Skip(CheckCatalogue.PosRate, NoneCame);
            bench.Report.Skip(CheckCatalogue.PosWaits, NoneCame);
            return;
        }

        Rate(bench, positions);
        Waits(bench);
    }

    private static void Rate(Bench bench, List<Crossed> positions)
    {
        foreach (var eye in EyeFacts.Both)
        {
            var own = new List<Crossed>();
            foreach (var position in positions)
            {
                if (position.Said.Position.Eye == eye)
                {
                    own.Add(position);
                }
            }

            // 25 within a second: a 26th less than a second after the first of them is too many; 20 ms for the instrument's own beat.
            for (var i = 0; i + 25 < own.Count; i++)
            {
                var span = own[i + 25].Said.Position.Tick - own[i].Said.Position.Tick;
                if (span < TimeSpan.FromMilliseconds(980))
                {
                    bench.Report.Fail(
                        CheckCatalogue.PosRate,
                        Bench.Text($"26 came within {span.TotalMilliseconds:0} ms."),
                        own[i + 25].Text
                    );
                    return;
                }
            }
        }

        if (positions.Count < 60)
        {
            bench.Report.Skip(
                CheckCatalogue.PosRate,
                Bench.Text($"Only {positions.Count} came, too few for a rate; move a scale for longer.")
            );
            return;
        }

        bench.Report.Pass(CheckCatalogue.PosRate, Bench.Text($"{positions.Count} POS."));
    }

    /// <summary>
    /// Between two events of one run of sending, the second of which was known to be kept before: there it waited.
    /// </summary>
    private static void Waits(Bench bench)
    {
        long known = 0;
        long? before = null;
        Crossed? among = null;
        var runs = 0;
        foreach (var line in bench.Host.Log)
        {
            if (!line.IsFromInstrument || !line.IsGood)
            {
                // Asked anew; or broken, and then the run may have ended there.
                (before, among) = (null, null);
            }
            else if (line.Is(InstrumentLineKind.Position))
            {
                among ??= line;
            }
            else if (line.Is(InstrumentLineKind.Event))
            {
                var number = line.Said.Event.Sequence;
                if (before is { } last && number == last + 1 && number <= known)
                {
                    runs++;
                    if (among is not null)
                    {
                        bench.Report.Fail(
                            CheckCatalogue.PosWaits,
                            Bench.Text($"It came between the events {last} and {number}, which waited."),
                            among.Text
                        );
                        return;
                    }
                }

                known = Math.Max(known, number);
                (before, among) = (number, null);
            }
        }

        bench.Report.Judge(
            CheckCatalogue.PosWaits,
            null,
            Bench.Text($"None among {runs} pairs of events that waited.")
        );
    }
}
