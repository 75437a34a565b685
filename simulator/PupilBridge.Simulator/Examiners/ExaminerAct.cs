namespace PupilBridge.Simulator.Examiners;

/// <summary>What a script asks for before it goes on.</summary>
internal abstract record ExaminerAct
{
    private ExaminerAct() { }

    /// <summary>Let time pass.</summary>
    public sealed record Wait(TimeSpan Time) : ExaminerAct;

    /// <summary>Go on when something is so, or when patience ends.</summary>
    public sealed record Until(Func<bool> IsSo, TimeSpan Patience) : ExaminerAct;

    /// <summary>Say something, when all that the instrument has told so far is recorded.</summary>
    public sealed record Say(SpokenJudgement Judgement) : ExaminerAct;
}
