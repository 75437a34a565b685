namespace PupilBridge.ExamLog;

/// <summary>The content of an exam log at one position of the journal.</summary>
/// <param name="LastApplied">The sequence of the last journal entry in it.</param>
/// <param name="Content">What stands for the content.</param>
public sealed record ExamLogCheck(long LastApplied, ContentDigest Content);
