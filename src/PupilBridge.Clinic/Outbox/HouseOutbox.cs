using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Showing;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Outbox;

/// <summary>The outbox of a house.</summary>
/// <param name="house">The house.</param>
/// <param name="time">The clock of steps.</param>
public sealed class HouseOutbox(IClinicHouse house, TimeProvider time) : IOutbox
{
    /// <inheritdoc/>
    public (IReadOnlyList<OutboxTask> Items, string? Next) ListOpen(string? after, int limit)
    {
        Ready();
        try
        {
            var page = house.ReadLog(log => log.ListOutbox(OutboxList.Open, after, limit));
            return (
                [.. page.Items.Select(OutboxDocuments.Read).Select(item => TaskOf(item, mayAnotherBeThere: false))],
                page.Next
            );
        }
        catch (ExamLogBrokenException broken)
        {
            throw new EntryProblemException(broken.Message, broken);
        }
    }

    /// <inheritdoc/>
    public OutboxTask? Look(long exam, int version)
    {
        Ready();
        try
        {
            return
                house.FindExam(new ExamId(exam)) is { } found
                && OutboxDocuments.ItemsOf(found).FirstOrDefault(item => item.Version == version) is { } item
                && OutboxStates.IsOpen(item.State)
                ? TaskOf(
                    item,
                    found.SignedVersions.Any(other => other.Version != version && MayBeThere(found, other.Version))
                )
                : null;
        }
        catch (ExamLogBrokenException broken)
        {
            throw new EntryProblemException(broken.Message, broken);
        }
    }

    /// <inheritdoc/>
    public OutgoingRecord? Read(long exam, int version)
    {
        Ready();
        try
        {
            return house.FindExam(new ExamId(exam)) is { } found ? OutgoingRecords.Of(house, found, version) : null;
        }
        catch (ExamLogBrokenException broken)
        {
            throw new EntryProblemException(broken.Message, broken);
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<OutgoingRecord> ReadEarlier(long exam, int version)
    {
        Ready();
        try
        {
            return house.FindExam(new ExamId(exam)) is { } found
                ?
                [
                    .. found
                        .SignedVersions.Select(one => one.Version)
                        .Where(one => one < version && MayBeThere(found, one))
                        .OrderDescending()
                        .Select(one => OutgoingRecords.Of(house, found, one))
                        .OfType<OutgoingRecord>(),
                ]
                : [];
        }
        catch (ExamLogBrokenException broken)
        {
            throw new EntryProblemException(broken.Message, broken);
        }
    }

    /// <inheritdoc/>
    public async Task NoteAsync(OutboxTask task, OutboxStep step, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(task);
        ArgumentNullException.ThrowIfNull(step);
        // What another system says of an erased patient would come back by it.
        var isErased = house.FindExam(new ExamId(task.Exam)) is { Erasure: not null };
        var entry = new RecordSent
        {
            Id = EntryId.From(Guid.NewGuid()),
            Who = RecordSent.Service,
            At = UtcTime.From(time.GetUtcNow()),
            ProgramVersion = house.Book.ProgramVersion,
            Exam = new ExamId(task.Exam),
            Version = task.Version,
            IsWithdrawal = task.IsWithdrawal,
            Destination = step.Destination,
            Outcome = step.Outcome,
            AnswerCode = step.AnswerCode,
            Attempt = step.Attempt,
            Location = step.Location is { } place ? Short(place) : null,
            Reason = isErased ? "" : Short(step.Reason),
        };
        var receipt = await house.RecordAsync(entry, cancellation).ConfigureAwait(false);
        await house.AppliedAsync(receipt.Sequence, cancellation).ConfigureAwait(false);
    }

    private static string Short(string text) =>
        text.Length <= RecordSent.MaxText ? text : string.Concat(text.AsSpan(0, RecordSent.MaxText - 1), "…");

    private static bool MayBeThere(Exam exam, int version) =>
        OutboxStates.MayBeThere(OutboxStates.StepsOf(exam, version));

    private static OutboxTask TaskOf(OutboxItem item, bool mayAnotherBeThere) =>
        new(
            item.Exam.Value,
            item.Version,
            item.Patient?.Value,
            item.Sequence.Value,
            Shown.Time(item.SignedAt),
            item.State == OutboxState.ToWithdraw
                || (item.State == OutboxState.Doubtful && item.Last is { IsWithdrawal: true }),
            item.State == OutboxState.Doubtful,
            item.MayBeThere,
            mayAnotherBeThere,
            item.Attempts
        );

    private void Ready()
    {
        if (house.ExamsWaitFor is { } wait)
        {
            throw new EntryProblemException(wait);
        }
    }
}
