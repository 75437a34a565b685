using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>What holds in an exam now, and what is known of each eye.</summary>
public static class ExamConditions
{
    private const EyeConditions HidesThePupil = EyeConditions.Prosthesis | EyeConditions.Patch | EyeConditions.LidDown;

    /// <summary>The room light as last said.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Bright or dim; null if nobody said, or if it may hold no longer.</returns>
    public static RoomLight? LightNow(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Light.Latest?.Light;
    }

    /// <summary>The fixation as last said.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Far or near; null if nobody said, or if it may hold no longer.</returns>
    public static Fixation? FixationNow(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Fixations.Latest?.Fixation;
    }

    /// <summary>Whether the patient was asked to look near: by the dial's block or by fixation.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>True if so.</returns>
    public static bool LookedNear(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Dial.Any(d => d.Block == Block.Near) || exam.Fixations.Any(f => f.Fixation == Fixation.Near);
    }

    /// <summary>What was entered of an eye.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>What holds; null if nobody looked.</returns>
    public static EyeConditions? StatusOf(Exam exam, Eye eye)
    {
        ArgumentNullException.ThrowIfNull(exam);
        for (var i = exam.EyeStatuses.Count - 1; i >= 0; i--)
        {
            if (exam.EyeStatuses[i] is { WithdrawnBy: null } status && status.Eye == eye)
                return status.Conditions;
        }

        return null;
    }

    /// <summary>Whether an eye's pupil cannot be examined: a prosthesis, a patch, or a lid that hangs down.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>True if so.</returns>
    public static bool IsHidden(Exam exam, Eye eye) =>
        ((StatusOf(exam, eye) ?? EyeConditions.None) & HidesThePupil) != 0;
}
