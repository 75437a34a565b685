using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// What became of sending a signed version, and what people decided about it. It changes nothing of the exam itself and is none of the
/// entries that a record is made from, so that a signature under way, or an amendment, is not disturbed by it.
/// </summary>
internal static class SendingSteps
{
    /// <summary>Takes an entry that is about sending.</summary>
    /// <returns>False if it is about something else.</returns>
    public static bool Took(Workspace work, Exam exam, ExamEntry entry)
    {
        switch (entry)
        {
            case RecordSent sent:
                Take(work, exam, sent.Version, null, Of(work, sent));
                return true;
            case SendingDecided decided:
                Take(work, exam, decided.Version, decided.Decision, Of(work, exam, decided));
                return true;
            default:
                return false;
        }
    }

    private static void Take(Workspace work, Exam exam, int version, SendingDecision? decision, Sending step)
    {
        if (exam.Sendings.Any(before => before.Entry == step.Entry))
            work.Ignore($"Exam {exam.Id} has this entry already; it was sent twice.");
        else if (WhyNot(exam, version, decision) is { } obstacle)
            work.Ignore(obstacle);
        else
            work.Put(exam with { Sendings = exam.Sendings.Add(step) });
    }

    private static Sending Of(Workspace work, RecordSent sent) =>
        new(
            sent.Id,
            work.Sequence,
            sent.Who,
            sent.At,
            sent.Version,
            sent.IsWithdrawal,
            sent.Destination,
            sent.Outcome,
            null,
            sent.AnswerCode,
            sent.Attempt,
            sent.Location,
            sent.Reason
        );

    // A person decides about what is to happen now, and that depends on whether the exam is set aside.
    private static Sending Of(Workspace work, Exam exam, SendingDecided decided) =>
        new(
            decided.Id,
            work.Sequence,
            decided.Who,
            decided.At,
            decided.Version,
            exam.Status == ExamStatus.SetAside,
            "",
            null,
            decided.Decision,
            null,
            0,
            null,
            decided.Reason
        );

    private static string? WhyNot(Exam exam, int number, SendingDecision? decision)
    {
        if (exam.SignedVersions.FirstOrDefault(v => v.Version == number) is not { } version)
            return $"Exam {exam.Id} has no signed version {number}.";
        var state = OutboxStates.Of(exam, version);
        var isStopped = OutboxStates.IsStopped(state);
        return decision switch
        {
            SendingDecision.Again when !isStopped && state != OutboxState.Withheld =>
                $"Exam {exam.Id}, version {number} was neither refused nor withheld, so there is nothing to try again.",
            SendingDecision.Withheld when !isStopped && !OutboxStates.IsOpen(state) =>
                $"Exam {exam.Id}, version {number} is not on its way any more, so there is nothing to withhold.",
            _ => null,
        };
    }
}
