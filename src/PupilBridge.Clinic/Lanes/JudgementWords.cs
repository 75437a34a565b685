using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>A judgement in short words, and the step that it answers.</summary>
internal static class JudgementWords
{
    /// <summary>The words.</summary>
    public static string Of(Judgement judgement) =>
        judgement switch
        {
            ShapeJudgement j => ClinicText.Lane.Of("Shape", j.Shape, HouseWords.Of(j.Eye)),
            DirectResponse j => ClinicText.Lane.Get("Judged.Direct", HouseWords.Of(j.Eye), Of(j.Grade)),
            ConsensualResponse j => ClinicText.Lane.Get("Judged.Consensual", HouseWords.Of(j.Lit), Of(j.Grade)),
            NearResponse j => ClinicText.Lane.Get("Judged.Near", HouseWords.Of(j.Eye), Of(j.Grade)),
            SlowToDilate j => ClinicText.Lane.Get("Judged.SlowToDilate", HouseWords.Of(j.Eye)),
            SwingOutcome j => ClinicText.Lane.Get("Judged.Swing", HouseWords.Of(StepOf(j.Dwell)), Of(j.Finding)),
            _ => throw new ArgumentException($"There are no words for {judgement.GetType().Name}.", nameof(judgement)),
        };

    /// <summary>The step; null if it answers none.</summary>
    public static ExamStep? StepOf(Judgement judgement) =>
        judgement switch
        {
            ShapeJudgement => ExamStep.Shape,
            DirectResponse => ExamStep.Direct,
            ConsensualResponse => ExamStep.Consensual,
            NearResponse => ExamStep.Near,
            SwingOutcome swing => StepOf(swing.Dwell),
            _ => null,
        };

    private static ExamStep StepOf(Block dwell) => dwell == Block.SwingShort ? ExamStep.SwingShort : ExamStep.SwingLong;

    /// <summary>A grade as charts have it, which no language changes.</summary>
    private static string Of(Grade grade) =>
        grade.WasSeen ? Exams.Notation.Words.Of(grade) : ClinicText.Lane.Get("Judged.CouldNotSee");

    private static string Of(SwingFinding finding) =>
        finding.WorseEye() is { } eye
            ? ClinicText.Lane.Get("Judged.Worse", HouseWords.Of(eye))
            : ClinicText.Lane.Of("Swing", finding);
}
