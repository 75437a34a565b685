using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>
/// The chart text of an exam in the trade's notation: sizes dim→bright, grades, PERRLA letter by letter, the RAPD state
/// beside it (common practice). Right stands above left; sides are always in words too. It states what was measured and
/// judged, and is no diagnosis.
/// </summary>
public static class ChartText
{
    /// <summary>The caution that ends every chart block.</summary>
    public const string Caution =
        "Values as measured and judged; no diagnosis. Follow local policy; a licensed practitioner decides.";

    /// <summary>The chart text in one line.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="corrections">The corrections of both scales; null for none.</param>
    /// <returns>One line.</returns>
    public static string OneLine(Exam exam, PerEye<ICorrection>? corrections = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        List<string> parts =
        [
            LetterText.Of(exam, Perrla.Of(exam, corrections)),
            $"Sizes: {OfBoth(eye => Sizes(exam, eye, corrections))}{Uncertainty(exam, corrections, "; ")}",
            $"Shape: {OfBoth(eye => Words.Of(Shape(exam, eye)))}",
            $"Direct: {OfBoth(eye => Words.Of(Direct(exam, eye)))}",
        ];
        if (Consensual(exam, Eye.Right) is not null || Consensual(exam, Eye.Left) is not null)
            parts.Add($"Consensual, by the eye lit: {OfBoth(eye => Words.Of(Consensual(exam, eye)))}");
        parts.Add($"Near: {OfBoth(eye => Words.Of(Near(exam, eye)))}");
        var swinging = Swinging.Of(exam);
        parts.Add($"Swinging: {SwingText.Of(swinging)}");
        if (swinging.State != SwingState.NotExamined)
            parts.Add($"Lamps: {LampText.Of(exam)}");
        var notes = ChartNotes.Of(exam);
        if (!notes.IsEmpty)
            parts.Add($"Notes: {string.Join("; ", notes)}");
        return string.Join(". ", parts) + ".";
    }

    /// <summary>The chart text as a block of lines, OD above OS.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="corrections">The corrections of both scales; null for none.</param>
    /// <returns>The lines.</returns>
    public static ImmutableArray<string> Block(Exam exam, PerEye<ICorrection>? corrections = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var lines = ImmutableArray.CreateBuilder<string>();
        lines.Add(LetterText.Of(exam, Perrla.Of(exam, corrections)));
        foreach (var eye in new[] { Eye.Right, Eye.Left })
            lines.Add($"{Words.Of(eye) + ":", -11} {Row(exam, eye, corrections)}");
        var swinging = Swinging.Of(exam);
        lines.Add($"Swinging: {SwingText.Of(swinging)}");
        if (swinging.State != SwingState.NotExamined)
            lines.Add($"Lamps: {LampText.Of(exam)}");
        if (Uncertainty(exam, corrections, "") is { Length: > 0 } uncertainty)
            lines.Add($"Sizes {uncertainty}");
        foreach (var note in ChartNotes.Of(exam))
            lines.Add($"Note: {note}");
        lines.Add(Caution);
        return lines.ToImmutable();
    }

    private static string Row(Exam exam, Eye eye, PerEye<ICorrection>? corrections)
    {
        var consensual = Consensual(exam, eye.Fellow()) is { } grade
            ? $"; consensual {Words.Of(grade)} (light in {Words.Of(eye.Fellow())})"
            : "";
        return $"{Sizes(exam, eye, corrections)}; shape {Words.Of(Shape(exam, eye))}; "
            + $"direct {Words.Of(Direct(exam, eye))}{consensual}; near {Words.Of(Near(exam, eye))}";
    }

    /// <summary>Sizes as charts have them: dim→bright (common practice).</summary>
    private static string Sizes(Exam exam, Eye eye, PerEye<ICorrection>? corrections)
    {
        var dim = PupilSizes.Of(exam, eye, RoomLight.Dim, corrections);
        var bright = PupilSizes.Of(exam, eye, RoomLight.Bright, corrections);
        if (dim is not null && bright is not null)
            return $"dim→bright {Words.Of(dim.Diameter)}→{Words.Of(bright.Diameter)} mm";
        if (dim is null && bright is null)
            return $"sizes {Words.NotExamined}";
        return dim is not null
            ? $"dim {Words.Of(dim.Diameter)} mm, bright {Words.NotExamined}"
            : $"bright {Words.Of(bright!.Diameter)} mm, dim {Words.NotExamined}";
    }

    private static string Uncertainty(Exam exam, PerEye<ICorrection>? corrections, string before)
    {
        var sizes = new[] { Eye.Right, Eye.Left }
            .SelectMany(eye =>
                new[] { RoomLight.Dim, RoomLight.Bright }.Select(l => PupilSizes.Of(exam, eye, l, corrections))
            )
            .OfType<PupilSize>()
            .Select(size => size.Diameter)
            .ToArray();
        if (sizes.Length == 0)
            return "";
        var largest = sizes.Max(d => d.ExpandedUncertaintyMillimetres);
        var calibrated =
            !sizes.All(d => d.IsCalibrated) ? "uncalibrated"
            : corrections is null ? CalibrationText.Of(exam)
            : "calibrated";
        var assumed = exam.Profile.Captures.SettingRepeatabilityIsMeasured ? "" : ", setting repeatability assumed";
        return $"{before}±{Words.Uncertainty(largest)} mm (k = 2{assumed}), {calibrated}";
    }

    private static string OfBoth(Func<Eye, string> text) =>
        $"{Words.Of(Eye.Right)} {text(Eye.Right)}, {Words.Of(Eye.Left)} {text(Eye.Left)}";

    private static PupilShape? Shape(Exam exam, Eye eye) =>
        (CurrentJudgements.Shape(exam, eye)?.Judgement as ShapeJudgement)?.Shape;

    private static Grade? Direct(Exam exam, Eye eye) =>
        (CurrentJudgements.Direct(exam, eye)?.Judgement as DirectResponse)?.Grade;

    private static Grade? Consensual(Exam exam, Eye lit) =>
        (CurrentJudgements.Consensual(exam, lit)?.Judgement as ConsensualResponse)?.Grade;

    private static Grade? Near(Exam exam, Eye eye) =>
        (CurrentJudgements.Near(exam, eye)?.Judgement as NearResponse)?.Grade;
}
