using System.Globalization;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Showing;

/// <summary>How great a defect is, for people.</summary>
internal static class DefectGradeViews
{
    /// <summary>The exam's bracket and grade, and what comes next.</summary>
    public static DefectGradeView Of(Exam exam)
    {
        var worse = Swinging.Of(exam).Eye;
        var entered = DefectGrades.Bracket(exam);
        var next = worse is { } eye ? Next(entered, eye) : null;
        return new DefectGradeView
        {
            Eye = worse is { } found ? ClinicWords.Eyes[found] : null,
            Steps = [.. (entered?.Steps ?? []).Select(Of)],
            Prompt = next?.Words,
            NextLogUnits = next is null ? null : Density(next.LogUnits),
            BeforeEye = next is null ? null : ClinicWords.Eyes[next.BeforeEye],
            Bell = DefectGrades.Bell(exam) is { } given ? Of(given) : null,
            Offered = worse is { } side
                ?
                [
                    .. BellScale
                        .Offered(exam, side)
                        .Select(grade => new OfferedGrade(grade.ToString(), BellScale.Words(grade))),
                ]
                : [],
        };
    }

    // Once a bracket is over, the first filter begins another one.
    private static BracketPrompt? Next(EnteredBracket? entered, Eye worse) =>
        (entered is { Bracket: var bracket } && bracket.WorseEye == worse ? bracket.Next : null)
        ?? DensityBracket.Begin(worse).Next;

    private static FilterStepView Of(FilterStepRecord step) =>
        new(
            Density(NeutralDensity.OfSteps(step.FilterSteps)),
            ClinicWords.Eyes[step.BeforeEye],
            ClinicText.Records.Of("Bracket", step.Answer),
            step.Who.Value,
            Shown.Time(step.At),
            step.Entry.ToString(),
            step.Sequence.Value
        );

    private static BellGradeView Of(BellGradeRecord given) =>
        new(
            ClinicWords.Eyes[given.Eye],
            given.Grade.ToString(),
            BellScale.Words(given.Grade),
            given.Who.Value,
            Shown.Time(given.At),
            given.Entry.ToString(),
            given.Sequence.Value
        );

    private static decimal Density(double logUnits) =>
        Math.Round(Convert.ToDecimal(logUnits, CultureInfo.InvariantCulture), 1);
}
