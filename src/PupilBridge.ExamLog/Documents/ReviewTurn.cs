namespace PupilBridge.ExamLog;

/// <summary>Whether an exam waits on the list of those to review, and how soon its turn comes.</summary>
public enum ReviewTurn
{
    /// <summary>It does not stand on the list.</summary>
    NotWaiting = 0,

    /// <summary>It waits among the others.</summary>
    Waiting = 1,

    /// <summary>It stands before all others.</summary>
    First = 2,
}
