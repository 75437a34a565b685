using PupilBridge.Clinic.Text;
using PupilBridge.ExamLog;
using PupilBridge.Journal;

namespace PupilBridge.Clinic.Desk;

/// <summary>Answers to questions, with words for a person where there is none.</summary>
internal static class Answers
{
    /// <summary>Reads on a thread of the pool: the exam log may be on a slow disk, and a caller may be a screen.</summary>
    /// <exception cref="EntryProblemException">It cannot be answered; the message says why.</exception>
    public static Task<T> FromAsync<T>(Func<T> answer, CancellationToken cancellation) =>
        Task.Run(
            () =>
            {
                try
                {
                    return answer();
                }
                catch (ExamLogBrokenException broken)
                {
                    throw new EntryProblemException(broken.Message, broken);
                }
                catch (ArgumentOutOfRangeException outside)
                {
                    throw new EntryProblemException(outside.Message, outside);
                }
                catch (Exception unreadable) when (unreadable is JournalException or IOException)
                {
                    throw new EntryProblemException(
                        ClinicText.Desk.Get("Answer.JournalUnreadable", unreadable.Message),
                        unreadable
                    );
                }
            },
            cancellation
        );
}
