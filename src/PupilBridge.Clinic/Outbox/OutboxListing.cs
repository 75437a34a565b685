using System.Text.Json;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Outbox;

/// <summary>The outbox for people.</summary>
internal static class OutboxListing
{
    /// <summary>One page.</summary>
    /// <exception cref="EntryProblemException">There is no such part, or no such place in it.</exception>
    public static OutboxPage Of(IClinicHouse house, SendingNews? news, string part, string? after, int limit)
    {
        var list = part switch
        {
            OutboxParts.Open => OutboxList.Open,
            OutboxParts.Stopped => OutboxList.Stopped,
            OutboxParts.Settled => OutboxList.Settled,
            _ => throw new EntryProblemException(ClinicText.Outbox.Get("List.None", part)),
        };
        try
        {
            var page = house.ReadLog(log => log.ListOutbox(list, after, limit));
            var sending = news?.State;
            var delays = (sending?.Delays ?? []).ToDictionary(delay => (delay.Exam, delay.Version));
            return new OutboxPage(
                sending,
                [
                    .. page
                        .Items.Select(stored => LineOf(OutboxDocuments.Read(stored)))
                        .Select(line =>
                            list == OutboxList.Open && delays.GetValueOrDefault((line.Exam, line.Version)) is { } delay
                                ? line with
                                {
                                    Attempts = Math.Max(line.Attempts, delay.Tries),
                                    Reason = ClinicText.Outbox.Get("Line.Delay", delay.Reason),
                                }
                                : line
                        ),
                ],
                page.Next
            );
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(problem.Message, problem);
        }
    }

    private static OutboxLine LineOf(OutboxItem item) =>
        new(
            item.Exam.Value,
            item.Version,
            item.Patient?.Value,
            Shown.Time(item.SignedAt),
            JsonNamingPolicy.KebabCaseLower.ConvertName(item.State.ToString()),
            ClinicText.Outbox[$"State.{item.State}"],
            item.Attempts,
            item.Last is { } last ? Shown.Time(last.At) : null,
            item.Last?.Who.Value,
            item.Last is { Destination.Length: > 0 } sent ? sent.Destination : null,
            item.Last?.AnswerCode,
            item.Last?.Location,
            item.Last is { Reason.Length: > 0 } said ? said.Reason : null,
            OutboxStates.IsStopped(item.State) || item.State == OutboxState.Withheld,
            OutboxStates.IsStopped(item.State) || OutboxStates.IsOpen(item.State)
        );
}
