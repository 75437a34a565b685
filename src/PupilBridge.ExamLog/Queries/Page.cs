namespace PupilBridge.ExamLog;

/// <summary>A piece of a list.</summary>
/// <typeparam name="T">What is listed.</typeparam>
/// <param name="Items">The piece, complete in memory.</param>
/// <param name="Next">
/// What to ask with for the piece after this one; null at the end of the list. A piece may be short, even empty, and not the last:
/// no question reads more than a bounded number of documents.
/// </param>
public sealed record Page<T>(IReadOnlyList<T> Items, string? Next);
