using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Worker.Projection;

/// <summary>Where the exams begin: where the exam log stood when it was taken into use, or a point that was noted.</summary>
/// <param name="Sequence">The last journal entry that is in it; 0 for none.</param>
/// <param name="Book">The reducer's book after that entry.</param>
internal sealed record ExamLogStart(long Sequence, ExamBook Book)
{
    /// <summary>The exams that ended lately, for which the exam log cannot be asked; none where it can.</summary>
    public IReadOnlyList<Exam> Ended { get; init; } = [];
}
