using PupilBridge.Clinic;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exchange.Sending;

/// <summary>
/// One try to send one version. The journal is told before the first byte leaves, and what may be at the server already is asked for
/// before it is sent: wherever this is cut off, the next try neither forgets nor doubles.
/// </summary>
internal sealed class OneSending(IOutbox outbox, IRecordPayloads payloads, FhirServer server, SendingSettings settings)
{
    /// <summary>Makes one try.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="version">The version.</param>
    /// <param name="attempt">Which try it is, from 1.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>What came of it.</returns>
    /// <exception cref="TryLaterException">Nothing final came of it.</exception>
    public async Task<TryEnd> RunAsync(long exam, int version, int attempt, CancellationToken cancellation)
    {
        if (outbox.Look(exam, version) is not { } task)
        {
            return TryEnd.NothingAsked;
        }

        var notes = new Notes(outbox, task, settings.Name, attempt, cancellation);
        try
        {
            if (Read(task) is not { } record)
            {
                await notes.Async(SendingOutcome.Refused, null, SendingText.Get("Record.Erased")).ConfigureAwait(false);
            }
            else if (task.IsWithdrawal)
            {
                await WithdrawAsync(record, notes, cancellation).ConfigureAwait(false);
            }
            else if (
                !(task.MayBeThere || task.MayAnotherBeThere)
                || !await IsThereAsync(record, notes, cancellation).ConfigureAwait(false)
            )
            {
                await SendAsync(task, record, notes, cancellation).ConfigureAwait(false);
            }
        }
        catch (RecordNotSentException refused)
        {
            await notes.Async(SendingOutcome.Refused, null, refused.Message).ConfigureAwait(false);
        }
        catch (ServerUnreachableException away)
        {
            throw new TryLaterException(away.Message, isServer: !away.IsSlow, inner: away);
        }

        return notes.End;
    }

    private OutgoingRecord? Read(OutboxTask task)
    {
        try
        {
            return outbox.Read(task.Exam, task.Version) is { } record
                ? Identities.Only(record, settings.Identity)
                : null;
        }
        catch (EntryProblemException unreadable) when (unreadable.InnerException is FormatException)
        {
            throw new RecordNotSentException(SendingText.Get("Record.Unreadable", unreadable.Message), unreadable);
        }
    }

    private List<OutgoingRecord> EarlierThan(OutboxTask task) =>
        [.. outbox.ReadEarlier(task.Exam, task.Version).Select(record => Identities.Only(record, settings.Identity))];

    /// <summary>Whether the server has it already, or what took its place; if so, that is noted.</summary>
    private async Task<bool> IsThereAsync(OutgoingRecord record, Notes notes, CancellationToken cancellation)
    {
        var id = payloads.IdentifierOf(record);
        var found = await Asking.FindAsync(server, id, cancellation).ConfigureAwait(false);
        // A report that does not say its version is the first one: putting a later one in its place again changes nothing.
        if (found.Count == 0 || (found.Count == 1 && (found[0].VersionOf(id) ?? 1) < id.Version))
        {
            return false;
        }

        await (
            found.Count > 1 ? notes.Async(SendingOutcome.Doubled, null, SendingText.Get("Found.Several", found.Count))
            : found[0].IsInError ? notes.Async(SendingOutcome.Refused, null, SendingText.Get("Found.Wrong"))
            : found[0].VersionOf(id) is { } later && later > id.Version
                ? notes.Async(SendingOutcome.Sent, null, SendingText.Get("Found.Later", later), found[0].Path)
            : notes.Async(SendingOutcome.Sent, null, SendingText.Get("Found.Before"), found[0].Path)
        ).ConfigureAwait(false);
        return true;
    }

    private async Task SendAsync(OutboxTask task, OutgoingRecord record, Notes notes, CancellationToken cancellation)
    {
        var payload = payloads.Make(record, EarlierThan(task));
        if (!task.MayBeThere)
        {
            await notes.Async(SendingOutcome.Begun, null, "").ConfigureAwait(false);
        }

        // The patient may have been erased since the record was read. Whoever erases from here on finds the step that was begun, and is told.
        if (outbox.Look(task.Exam, task.Version) is null)
        {
            return;
        }

        var answer = await server.PostAsync(payload, cancellation).ConfigureAwait(false);
        switch (AnswerJudge.OfTransaction(answer, payload.Entries))
        {
            case Verdict.Stored stored:
                await StoredAsync(task, record, stored, answer.Code, notes, cancellation).ConfigureAwait(false);
                break;
            case Verdict.Refused refused:
                await notes.Async(SendingOutcome.Refused, answer.Code, refused.Reason).ConfigureAwait(false);
                break;
            case Verdict.SeveralThere several:
                await notes.Async(SendingOutcome.Doubled, answer.Code, several.Reason).ConfigureAwait(false);
                break;
            case Verdict.NotNow later:
                throw new TryLaterException(later.Reason, later.IsServer, later.RetryAfter);
            case Verdict.Unbelievable lie:
                if (!task.IsDoubtful)
                {
                    await notes.Async(SendingOutcome.Doubtful, answer.Code, lie.Reason).ConfigureAwait(false);
                }

                throw new TryLaterException(lie.Reason, isServer: false);
        }
    }

    private async Task StoredAsync(
        OutboxTask task,
        OutgoingRecord record,
        Verdict.Stored stored,
        int code,
        Notes notes,
        CancellationToken cancellation
    )
    {
        // A repeat, or an amendment, is where a server shows whether it keeps to the condition: it is looked at, and not believed.
        var copies =
            task.MayBeThere || task.MayAnotherBeThere
                ? (
                    await Asking.FindAsync(server, payloads.IdentifierOf(record), cancellation).ConfigureAwait(false)
                ).Count
                : 1;
        await (
            copies > 1
                ? notes.Async(SendingOutcome.Doubled, code, SendingText.Get("Found.Repeat", copies), stored.Location)
                : notes.Async(SendingOutcome.Sent, code, "", stored.Location)
        ).ConfigureAwait(false);
    }

    private async Task WithdrawAsync(OutgoingRecord record, Notes notes, CancellationToken cancellation)
    {
        var found = await Asking.FindAsync(server, payloads.IdentifierOf(record), cancellation).ConfigureAwait(false);
        var parts = await Withdrawing.RunAsync(server, found, cancellation).ConfigureAwait(false);
        var words = parts == 0 ? SendingText.Get("Withdrawn.None") : SendingText.Get("Withdrawn.Many", parts);
        await notes
            .Async(SendingOutcome.Sent, null, words, found.Count > 0 ? found[0].Path : null)
            .ConfigureAwait(false);
    }

    /// <summary>Notes of one try.</summary>
    private sealed class Notes(
        IOutbox outbox,
        OutboxTask task,
        string destination,
        int attempt,
        CancellationToken cancellation
    )
    {
        /// <summary>What the notes come to.</summary>
        public TryEnd End { get; private set; }

        public async Task Async(SendingOutcome outcome, int? code, string reason, string? location = null)
        {
            var step = new OutboxStep(destination, outcome, code, attempt, location, reason);
            await outbox.NoteAsync(task, step, cancellation).ConfigureAwait(false);
            End =
                outcome == SendingOutcome.Sent ? TryEnd.Sent
                : code is not null || outcome == SendingOutcome.Doubled ? TryEnd.Answered
                : End;
        }
    }
}
