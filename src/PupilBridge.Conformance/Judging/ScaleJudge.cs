using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Conformance.Tracing;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at whether the scales go as far as they say, and no further.</summary>
internal static class ScaleJudge
{
    public static void Judge(Bench bench)
    {
        var ranges = ScaleRange.Of(bench.Host.Log);
        if (bench.Host.Log.FirstOrDefault(c => IsBeyond(c, ranges)) is { } beyond)
        {
            bench.Report.Fail(CheckCatalogue.ScaleEnds, "It lies beyond the ends that SCALE declares.", beyond.Text);
        }
        else if (bench.Done.Contains(HandTask.MoveScales))
        {
            bench.Report.Pass(CheckCatalogue.ScaleEnds, string.Join("; ", ranges.Select(Words)) + ".");
        }
        else if (bench.DoneInVain.Contains(HandTask.MoveScales))
        {
            var notWhole = ranges.Where(r => !r.IsWhole).Select(Words);
            bench.Report.Fail(
                CheckCatalogue.ScaleEnds,
                $"Slid from end to end, a scale did not come to rest at both: {string.Join("; ", notWhole)}. It sticks, loses its place, or declares another range."
            );
        }
        else
        {
            bench.Report.Skip(
                CheckCatalogue.ScaleEnds,
                bench.Plan.Hands is null
                    ? "Nobody was there to slide the scales from end to end (--with-person)."
                    : "The scales were not slid from end to end."
            );
        }
    }

    private static bool IsBeyond(Crossed line, IReadOnlyList<ScaleRange> ranges)
    {
        var (eye, position) = line switch
        {
            _ when line.Is(InstrumentLineKind.Position) => (line.Said.Position.Eye, line.Said.Position.Position),
            _ when line.Is(InstrumentLineKind.Event)
                    && line.Said.Event.Kind is InstrumentEventKind.ScaleAtRest or InstrumentEventKind.EdgeMarked => (
                line.Said.Event.Eye,
                line.Said.Event.Position
            ),
            _ => default,
        };
        return eye != default
            && ranges.FirstOrDefault(r => r.Eye == eye) is { } range
            && (position < range.Declared.Lowest || position > range.Declared.Highest);
    }

    private static string Words(ScaleRange range) =>
        range is { Lowest: { } low, Highest: { } high }
            ? Bench.Text(
                $"{FieldNames.Of(range.Eye)}, at rest from {low.Value} to {high.Value} µm of {range.Declared.Lowest.Value} to {range.Declared.Highest.Value} µm"
            )
            : $"{FieldNames.Of(range.Eye)}, never at rest";
}
