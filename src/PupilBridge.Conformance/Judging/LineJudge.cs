using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at each line of the run by itself.</summary>
internal static class LineJudge
{
    private static readonly string[] Types = ["ID", "STOP", "SCALE", "EV", "POS", "BEAT", "DONE", "HELD", "NOVERSION"];

    public static void Judge(Bench bench)
    {
        // The port may have been opened in the middle of the first one.
        var lines = bench.Host.Log.Where(c => c.IsFromInstrument).Skip(1).Where(c => !c.Line.Bytes.IsEmpty).ToList();
        if (lines.Count == 0)
        {
            bench.Report.Skip(
                CheckCatalogue.LinesWhole,
                "No line came. Check cable, baud rate, and that the instrument is on."
            );
            bench.Report.Skip(CheckCatalogue.LinesGrammar, "No line came.");
            return;
        }

        var broken = lines.Where(c => c.Fault.Kind is not (LineFaultKind.None or LineFaultKind.BadField)).ToList();
        bench.Report.Judge(
            CheckCatalogue.LinesWhole,
            broken.Count == 0
                ? null
                : Bench.Text(
                    $"{broken.Count} of {lines.Count} lines are broken; the first at {broken[0].At.TotalSeconds:0.000} s: {broken[0].Fault.Describe()} {Suspect(lines, broken)}"
                ),
            Bench.Text($"{lines.Count} lines."),
            broken.FirstOrDefault()?.Text
        );
        var strange = lines.FirstOrDefault(c =>
            c.Fault.Kind == LineFaultKind.BadField || (c.IsGood && c.Said.Kind == InstrumentLineKind.Unknown)
        );
        bench.Report.Judge(
            CheckCatalogue.LinesGrammar,
            strange is null ? null
                : strange.IsGood ? "A type that version 1 does not have."
                : strange.Fault.Describe(),
            Bench.Text($"{lines.Count - broken.Count} lines."),
            strange?.Text
        );
    }

    /// <summary>A line breaks whatever crosses it; firmware that makes lines wrongly makes one type wrongly.</summary>
    private static string Suspect(List<Crossed> lines, List<Crossed> broken)
    {
        if (broken.FirstOrDefault(HasRightCheck) is not null)
        {
            return "One of them has a right check: the firmware made it so.";
        }

        var types = broken
            .GroupBy(c => Types.Contains(c.Type) ? c.Type : "")
            .OrderByDescending(t => t.Count())
            .ToList();
        var words = string.Join(
            ", ",
            types.Select(t => Bench.Text($"{t.Count()} {(t.Key.Length > 0 ? t.Key : "unreadable")}"))
        );
        if (types.Count > 1 || types[0].Key.Length == 0)
        {
            return $"Of all kinds ({words}): rather the line (cable, adapter, baud rate, another program) than the firmware.";
        }

        return lines.Count(c => c.Type == types[0].Key) < lines.Count / 2
            ? $"All are of one type ({words}): rather the firmware than the line."
            : $"All are of one type ({words}), as most lines are: the line or the firmware.";
    }

    // Of a run that is cut in pieces, a piece says nothing.
    private static bool HasRightCheck(Crossed line) =>
        line.Fault.Kind != LineFaultKind.TooLong
        && line.Text.TrimEnd('\r') is [.. var body, '*', _, _, _, _, _, _, _, _]
        && RawHost.WithCheck(body) == line.Text.TrimEnd('\r');
}
