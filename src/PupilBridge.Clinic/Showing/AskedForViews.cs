using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Showing;

/// <summary>What an exam asks for: the one thing for now, then what is left, and what to be reminded of.</summary>
internal static class AskedForViews
{
    /// <summary>What is asked for.</summary>
    public static AskedForView Of(IClinicHouse house, Exam exam)
    {
        var now = Asked.Of(exam);
        var steps = new List<AskedStep>();
        if (now.For != AskedFor.Nothing)
        {
            steps.Add(Now(house, exam, now));
        }

        var left = ExamSteps
            .Of(exam)
            .Where(step => step.State is StepState.Due or StepState.NotYet or StepState.Skipped)
            .Where(step => step.Step != now.Step);
        steps.AddRange(exam.Status == ExamStatus.Open ? left.Select(step => Later(house, exam, step)) : []);
        return new AskedForView(exam.Id.Value, steps) { Reminders = [.. Reminders.Of(exam).Select(AskedWords.Of)] };
    }

    private static AskedStep Now(IClinicHouse house, Exam exam, Asked asked) =>
        new(
            asked.Step is { } step ? ClinicWords.Steps[step] : "make-ready",
            asked.Eye is { } eye ? [ClinicWords.Eyes[eye]] : [],
            asked.Step is { } judged && CanBeJudged(house, exam, judged, asked.Eye is { } one ? [one] : []),
            AskedWords.Of(asked)
        );

    private static AskedStep Later(IClinicHouse house, Exam exam, StepStatus step) =>
        new(
            ClinicWords.Steps[step.Step],
            [.. step.Missing.Select(eye => ClinicWords.Eyes[eye])],
            CanBeJudged(house, exam, step.Step, [.. step.Missing]),
            AskedWords.Later(step)
        );

    /// <summary>Whether a judgement of the step would count now, which only the domain knows.</summary>
    private static bool CanBeJudged(IClinicHouse house, Exam exam, ExamStep step, Eye[] eyes) =>
        Samples(step, eyes.Length == 0 ? [Eye.Right, Eye.Left] : eyes)
            .Any(sample =>
                Rehearsal.WouldCount(house.Book, id => id == exam.Id ? exam : house.FindExam(id), exam, sample)
            );

    private static IEnumerable<Judgement> Samples(ExamStep step, Eye[] eyes) =>
        step switch
        {
            ExamStep.Shape => eyes.Select(eye => new ShapeJudgement(eye, PupilShape.CouldNotSee)),
            ExamStep.Direct => eyes.Select(eye => new DirectResponse(eye, Grade.CouldNotSee)),
            ExamStep.Consensual => eyes.Select(eye => new ConsensualResponse(eye, eye.Fellow(), Grade.CouldNotSee)),
            ExamStep.Near => eyes.Select(eye => new NearResponse(eye, Grade.CouldNotSee)),
            ExamStep.SwingShort => [new SwingOutcome(Block.SwingShort, SwingFinding.CouldNotSee, PupilsObserved.Both)],
            ExamStep.SwingLong => [new SwingOutcome(Block.SwingLong, SwingFinding.CouldNotSee, PupilsObserved.Both)],
            _ => [],
        };
}
