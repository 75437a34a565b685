namespace PupilBridge.Verbs.Exams;

/// <summary>The words for an exam's status that lists can be narrowed to.</summary>
internal static class ExamStatuses
{
    /// <summary>All words.</summary>
    public static IReadOnlyList<string> All { get; } = ["open", "ready-for-review", "signed", "amended", "set-aside"];
}
