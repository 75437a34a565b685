using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Projection.Resuming;

/// <summary>
/// The exams that are live, as they stood after one entry of the journal: all that the reducer needs to go on from there without the
/// exam log.
/// </summary>
/// <param name="Position">The entry, and the journal's chain there, which tells this journal from any other.</param>
/// <param name="Book">The reducer's book after it, open exams included.</param>
/// <param name="Ended">The exams and bench runs that ended lately, the first first.</param>
internal sealed record ResumePoint(JournalPosition Position, ExamBook Book, IReadOnlyList<Exam> Ended);
