using PupilBridge.Clinic.House;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Showing;

/// <summary>Exams of which the exam log may be behind, put in their places between those of a page of it.</summary>
internal static class ExamsOfPage
{
    /// <summary>An exam's place in the exam log's order.</summary>
    public static ExamPlace PlaceOf(Exam exam) =>
        ExamPlace.Of(Shown.Time(exam.Opening.When.At), ExamDocuments.IdOf(exam.Id));

    /// <summary>Those that belong on a page, as they are now.</summary>
    /// <param name="house">The house.</param>
    /// <param name="ahead">The exams of which the log may be behind, asked for before the page was read.</param>
    /// <param name="after">The place behind which the page begins; null for the first.</param>
    /// <param name="next">The place with which it ends; null for the last.</param>
    public static IEnumerable<Exam> Ahead(
        IClinicHouse house,
        IReadOnlySet<ExamId> ahead,
        string? after,
        string? next
    ) =>
        ahead
            .Select(house.FindExam)
            .OfType<Exam>()
            .Where(exam =>
                (after is null || PlaceOf(exam) < ExamPlace.Parse(after))
                && (next is null || PlaceOf(exam) >= ExamPlace.Parse(next))
            );
}
