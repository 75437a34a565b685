namespace PupilBridge.Clinic.Views;

/// <summary>What an exam asks for now.</summary>
/// <param name="Exam">The exam's number.</param>
/// <param name="Steps">The steps not done yet, in the profile's order; the first one is asked for now.</param>
public sealed record AskedForView(long Exam, IReadOnlyList<AskedStep> Steps)
{
    /// <summary>What an examiner would want to be reminded of, for people to read.</summary>
    public IReadOnlyList<string> Reminders { get; init; } = [];
}

/// <summary>One step that is asked for.</summary>
/// <param name="Step">The step in a word, as <c>stepSeen</c> of a judgement takes it.</param>
/// <param name="Eyes">The eyes it is asked for, <c>OD</c> before <c>OS</c>; none where it is not about one eye.</param>
/// <param name="CanBeJudgedNow">Whether its opportunity is there, so that a judgement would count.</param>
/// <param name="Words">What to do, for a person.</param>
public sealed record AskedStep(string Step, IReadOnlyList<string> Eyes, bool CanBeJudgedNow, string Words);
