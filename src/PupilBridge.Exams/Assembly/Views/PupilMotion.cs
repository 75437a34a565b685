using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>Whether an eye's pupil is known to move at all, whichever eye the light falls into.</summary>
internal enum PupilMotion
{
    /// <summary>Nothing says so.</summary>
    Unknown = 0,

    /// <summary>It was seen to move.</summary>
    Moves = 1,

    /// <summary>It has no direct response, and nothing else was recorded: blind or fixed.</summary>
    BlindOrFixed = 2,

    /// <summary>It has neither a direct nor a consensual response, or there is no pupil.</summary>
    Fixed = 3,
}

/// <summary>Reads it out of an exam.</summary>
internal static class PupilMotions
{
    public static PupilMotion Of(Exam exam, Eye eye)
    {
        var status = ExamConditions.StatusOf(exam, eye) ?? EyeConditions.None;
        if (status.HasFlag(EyeConditions.Prosthesis))
            return PupilMotion.Fixed;
        var direct = Contradictions.PoorestDirect(exam, eye);
        var consensual = (CurrentJudgements.Consensual(exam, eye.Fellow())?.Judgement as ConsensualResponse)
            ?.Grade
            .HalfSteps;
        if (direct > 0 || consensual > 0)
            return PupilMotion.Moves;
        if (direct is null)
            return PupilMotion.Unknown;
        return consensual == 0 ? PupilMotion.Fixed : PupilMotion.BlindOrFixed;
    }

    /// <summary>The eyes whose pupils were watched.</summary>
    public static IEnumerable<Eye> Watched(PupilsObserved observed) =>
        new[] { Eye.Right, Eye.Left }.Where(eye =>
            observed == PupilsObserved.Both
            || observed == (eye == Eye.Right ? PupilsObserved.Right : PupilsObserved.Left)
        );

    /// <summary>Whether an eye's pupil does not move, or may not.</summary>
    public static bool MayBeFixed(Exam exam, Eye eye) => Of(exam, eye) is PupilMotion.Fixed or PupilMotion.BlindOrFixed;

    /// <summary>The one eye whose pupil moves while its fellow's may not; null where there is none.</summary>
    public static Eye? Working(Exam exam)
    {
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            if (Of(exam, eye) == PupilMotion.Moves && MayBeFixed(exam, eye.Fellow()))
                return eye;
        }

        return null;
    }

    /// <summary>Whether a pupil that was watched is fixed, or may be.</summary>
    public static bool WatchedMayBeFixed(Exam exam, PupilsObserved observed) =>
        Watched(observed).Any(eye => MayBeFixed(exam, eye));
}
