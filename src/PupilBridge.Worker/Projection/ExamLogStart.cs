using PupilBridge.Exams.Assembly;

namespace PupilBridge.Worker.Projection;

/// <summary>Where the exam log stood when it was taken into use.</summary>
/// <param name="Sequence">The last journal entry that it holds; 0 for none.</param>
/// <param name="Book">The reducer's book after that entry.</param>
internal sealed record ExamLogStart(long Sequence, ExamBook Book);
