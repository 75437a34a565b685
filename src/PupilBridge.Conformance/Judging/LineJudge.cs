using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at each line of the run by itself.</summary>
internal static class LineJudge
{
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
                    $"{broken.Count} of {lines.Count} lines are broken; the first at {broken[0].At.TotalSeconds:0.000} s: {broken[0].Fault.Describe()}"
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
}
