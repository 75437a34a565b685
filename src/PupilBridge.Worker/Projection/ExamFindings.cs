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

    /// <summary>The swinging test showed the two eyes to differ, or its outcomes disagree.</summary>
    public const string SwingAsymmetry = "swing-asymmetry";

    /// <summary>The sizes under one light surely differ by more than the limit in use.</summary>
    public const string Anisocoria = "anisocoria";

    /// <summary>The exam is over, and a step of it was not examined.</summary>
    public const string Incomplete = "incomplete";

    /// <summary>Events of the instrument are lost, or lie at the exam's border and in no exam.</summary>
    public const string Gap = "gap";

    /// <summary>
    /// There is a reason why a clinician should see the patient before drops (<see cref="PupilBridge.Exams.Assembly.Views.BeforeDrops"/>),
    /// as if nothing were known from earlier visits.
    /// </summary>
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
        var reasons = PupilBridge.Exams.Assembly.Views.BeforeDrops.Of(exam, []);
        bool Is(BeforeDropsKind kind) => reasons.Any(reason => reason.Kind == kind);
        return All.Where(word =>
            word switch
            {
                Anisocoria => IsUnequal(exam, RoomLight.Bright) || IsUnequal(exam, RoomLight.Dim),
                BeforeDrops => !reasons.IsEmpty,
                Gap => exam.Incidents.Any(i => i.Kind is IncidentKind.EventsLost or IncidentKind.EventUnplaced),
                Incomplete => Is(BeforeDropsKind.Incomplete),
                NotRound => IsNotRound(exam, Eye.Right) || IsNotRound(exam, Eye.Left),
                PoorDirect => Is(BeforeDropsKind.PoorDirect),
                _ => Is(BeforeDropsKind.SwingAsymmetry),
            }
        );
    }

    private static bool IsUnequal(Exam exam, RoomLight light) =>
        SizeEquality.Of(exam, light).Verdict == LimitVerdict.Above;

    private static bool IsNotRound(Exam exam, Eye eye) =>
        CurrentJudgements.Shape(exam, eye) is { } stands
        && Contradictions
            .Others(exam, stands)
            .Append(stands)
            .Any(said => said.Judgement is ShapeJudgement { Shape: PupilShape.NotRound });
}
