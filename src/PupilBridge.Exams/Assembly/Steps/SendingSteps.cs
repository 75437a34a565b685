using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// What became of sending a signed version. It changes nothing of the exam itself and is none of the entries that a record is made
/// from, so that a signature under way, or an amendment, is not disturbed by it.
/// </summary>
internal static class SendingSteps
{
    public static void Take(Workspace work, Exam exam, RecordSent sent)
    {
        if (exam.Sendings.Any(step => step.Entry == sent.Id))
        {
            work.Ignore($"Exam {exam.Id} has this entry already; it was sent twice.");
            return;
        }

        if (WhyNot(exam, sent) is { } obstacle)
        {
            work.Ignore(obstacle);
            return;
        }

        var step = new Sending(
            sent.Id,
            work.Sequence,
            sent.Who,
            sent.At,
            sent.Version,
            IsDecision(sent) ? exam.Status == ExamStatus.SetAside : sent.IsWithdrawal,
            sent.Destination,
            sent.Outcome,
            sent.AnswerCode,
            sent.Attempt,
            sent.Location,
            sent.Reason
        );
        work.Put(exam with { Sendings = exam.Sendings.Add(step) });
    }

    // A person decides about what is to happen now, and that depends on whether the exam is set aside.
    private static bool IsDecision(RecordSent sent) => sent.Outcome is SendingOutcome.Again or SendingOutcome.GivenUp;

    private static string? WhyNot(Exam exam, RecordSent sent)
    {
        if (exam.SignedVersions.FirstOrDefault(v => v.Version == sent.Version) is not { } version)
            return $"Exam {exam.Id} has no signed version {sent.Version}.";
        var state = OutboxStates.Of(exam, version);
        var isStopped = OutboxStates.IsStopped(state);
        return sent.Outcome switch
        {
            SendingOutcome.Again when !isStopped && state != OutboxState.GivenUp =>
                $"Exam {exam.Id}, version {sent.Version} was neither refused nor given up, so there is nothing to try again.",
            SendingOutcome.GivenUp when !isStopped && !OutboxStates.IsOpen(state) =>
                $"Exam {exam.Id}, version {sent.Version} is not on its way any more, so there is nothing to skip.",
            _ => null,
        };
    }
}
