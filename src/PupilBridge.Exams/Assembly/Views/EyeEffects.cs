using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>
/// What the state of an eye makes unreliable. The list is ours, from what each state does to the pupil or to the sight of
/// it; it withholds claims and never adds one.
/// </summary>
public static class EyeEffects
{
    private const EyeConditions Hides = EyeConditions.Prosthesis | EyeConditions.Patch | EyeConditions.LidDown;
    private const EyeConditions Moves = EyeConditions.Drops | EyeConditions.SurgeryOrInjury;

    /// <summary>Whether the size of that eye's pupil is unreliable: hidden, moved by drops or injury, or seen badly.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>True if so.</returns>
    public static bool OnSize(Exam exam, Eye eye) => Has(exam, eye, Hides | Moves | EyeConditions.OpaqueCornea);

    /// <summary>Whether the form of that eye's pupil is unreliable.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>True if so.</returns>
    public static bool OnShape(Exam exam, Eye eye) =>
        Has(exam, eye, Hides | EyeConditions.SurgeryOrInjury | EyeConditions.OpaqueCornea);

    /// <summary>Whether the response of that eye's pupil is unreliable.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <returns>True if so.</returns>
    public static bool OnResponse(Exam exam, Eye eye) => Has(exam, eye, Hides | Moves | EyeConditions.OpaqueCornea);

    /// <summary>
    /// Whether the swinging test is unreliable: light must reach both eyes alike, and the pupils that were watched must be
    /// free to move.
    /// </summary>
    /// <param name="exam">The exam.</param>
    /// <param name="watched">Whose pupils were watched.</param>
    /// <returns>True if the state of an eye makes it so.</returns>
    public static bool OnSwinging(Exam exam, PupilsObserved watched)
    {
        const EyeConditions dims = Hides | EyeConditions.OpaqueCornea;
        if (Has(exam, Eye.Right, dims) || Has(exam, Eye.Left, dims))
            return true;
        return (watched != PupilsObserved.Left && Has(exam, Eye.Right, Moves))
            || (watched != PupilsObserved.Right && Has(exam, Eye.Left, Moves));
    }

    private static bool Has(Exam exam, Eye eye, EyeConditions conditions) =>
        ((ExamConditions.StatusOf(exam, eye) ?? EyeConditions.None) & conditions) != 0;
}
