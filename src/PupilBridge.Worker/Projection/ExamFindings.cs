using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// What was found in an exam, in short words to search by. They follow from that exam alone, so that an exam log that is built anew has
/// the same ones; whether something is new to the patient is asked when it is shown.
/// </summary>
public static class ExamFindings
{
    /// <summary>The form of a pupil was judged not round.</summary>
    public const string NotRound = "not-round";

    /// <summary>A direct response is so poor that the profile makes the near response due.</summary>
    public const string PoorDirect = "poor-direct";

    /// <summary>A swinging test at one dwell at least showed the eyes not alike.</summary>
    public const string SwingAsymmetry = "swing-asymmetry";

    /// <summary>The sizes under one light surely differ by more than the limit in use.</summary>
    public const string Anisocoria = "anisocoria";

    /// <summary>The exam is over and a step lacks something, or was accepted as not examined.</summary>
    public const string Incomplete = "incomplete";

    /// <summary>Events of the instrument are lost, or lie at the exam's border and in no exam.</summary>
    public const string Gap = "gap";

    /// <summary>Something of what should be seen by a clinician before drops are given.</summary>
    public const string BeforeDrops = "before-drops";

    /// <summary>All the words there are, in the order of their characters.</summary>
    public static ValueList<string> All { get; } =
    [Anisocoria, BeforeDrops, Gap, Incomplete, NotRound, PoorDirect, SwingAsymmetry];

    /// <summary>What was found.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The words, in the order of their characters.</returns>
    public static ValueList<string> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return All.Where(word => Has(exam, word));
    }

    private static bool Has(Exam exam, string word) =>
        word switch
        {
            Anisocoria => Sizes(exam, LimitVerdict.Above),
            Gap => exam.Incidents.Any(i => i.Kind is IncidentKind.EventsLost or IncidentKind.EventUnplaced),
            Incomplete => IsIncomplete(exam),
            NotRound => IsNotRound(exam, Eye.Right) || IsNotRound(exam, Eye.Left),
            PoorDirect => ExamSteps.IsNearDue(exam),
            SwingAsymmetry => Swinging
                .Of(exam)
                .Dwells.Any(dwell => dwell.Outcome?.Finding.WorseEye() is not null || dwell.DiffersFromBefore),
            BeforeDrops => Has(exam, PoorDirect)
                || Has(exam, SwingAsymmetry)
                || Has(exam, Incomplete)
                || Sizes(exam, LimitVerdict.Above, LimitVerdict.CannotTell),
            _ => false,
        };

    private static bool Sizes(Exam exam, params LimitVerdict[] verdicts) =>
        new[] { RoomLight.Bright, RoomLight.Dim }.Any(light =>
            SizeEquality.Of(exam, light).Verdict is { } verdict && verdicts.Contains(verdict)
        );

    private static bool IsIncomplete(Exam exam) =>
        !exam.TakesEvents
        && ExamSteps.Of(exam).Any(step => step.State is StepState.Skipped or StepState.AcceptedNotExamined);

    private static bool IsNotRound(Exam exam, Eye eye) =>
        CurrentJudgements.Shape(exam, eye)?.Judgement is ShapeJudgement { Shape: PupilShape.NotRound };
}
