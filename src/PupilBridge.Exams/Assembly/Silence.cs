using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly;

/// <summary>When an exam in which nothing happens is over.</summary>
internal static class Silence
{
    /// <summary>The moment at which the exam is over if nothing happens any more.</summary>
    public static UtcTime EndsAt(Exam exam) =>
        exam.LastActivity.At.PlusMilliseconds(exam.Profile.Closing.SilenceMilliseconds);

    public static bool IsOver(Exam exam, UtcTime now) => exam.TakesEvents && now >= EndsAt(exam);
}
