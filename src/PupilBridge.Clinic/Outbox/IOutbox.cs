using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Outbox;

/// <summary>What a sender needs of the house: what is to be sent, the records, and the journal's memory of what was sent.</summary>
/// <remarks>Safe for several threads. What cannot be read just now ends in an <see cref="EntryProblemException"/>.</remarks>
public interface IOutbox
{
    /// <summary>What is to be sent, in the order of signatures. It may lag behind: ask <see cref="Look"/> before anything is done.</summary>
    /// <param name="after">Where the page before ended; null for the first page.</param>
    /// <param name="limit">The most to list, 1 to 500.</param>
    /// <returns>The items, and what to ask with for the next page; null at the end.</returns>
    (IReadOnlyList<OutboxTask> Items, string? Next) ListOpen(string? after, int limit);

    /// <summary>One version as the journal has it now.</summary>
    /// <param name="exam">The exam's number.</param>
    /// <param name="version">The version.</param>
    /// <returns>Null if it is not to be sent, or not any more.</returns>
    OutboxTask? Look(long exam, int version);

    /// <summary>The record as it may leave the house.</summary>
    /// <param name="exam">The exam's number.</param>
    /// <param name="version">The version.</param>
    /// <returns>Null if it has been erased.</returns>
    OutgoingRecord? Read(long exam, int version);

    /// <summary>
    /// The versions before one of which anything may be at the other system, the latest first. Those whose text has been erased are
    /// left out.
    /// </summary>
    /// <param name="exam">The exam's number.</param>
    /// <param name="version">The version.</param>
    IReadOnlyList<OutgoingRecord> ReadEarlier(long exam, int version);

    /// <summary>Writes a step into the journal, and waits until it is on disk and counts.</summary>
    /// <param name="task">What it is about.</param>
    /// <param name="step">The step.</param>
    /// <param name="cancellation">Gives up waiting; the step may be recorded all the same.</param>
    Task NoteAsync(OutboxTask task, OutboxStep step, CancellationToken cancellation);
}

/// <summary>One signed version that is to be sent, or taken back.</summary>
/// <param name="Exam">The exam's number.</param>
/// <param name="Version">The signed version.</param>
/// <param name="Patient">The patient's number; null if the exam belongs to nobody.</param>
/// <param name="Sequence">Where the signature stands in the journal.</param>
/// <param name="SignedAt">When it was signed.</param>
/// <param name="IsWithdrawal">Whether the other system is to be told that it is not valid any more.</param>
/// <param name="IsDoubtful">Whether the last answer could not be believed.</param>
/// <param name="MayBeThere">Whether anything of it may have left the house: the other system must be asked first.</param>
/// <param name="MayAnotherBeThere">
/// Whether anything of another version of the same exam may have left the house; only <see cref="IOutbox.Look"/> knows it.
/// </param>
/// <param name="Attempts">How many tries stand in the journal.</param>
public sealed record OutboxTask(
    long Exam,
    int Version,
    string? Patient,
    long Sequence,
    DateTimeOffset SignedAt,
    bool IsWithdrawal,
    bool IsDoubtful,
    bool MayBeThere,
    bool MayAnotherBeThere,
    int Attempts
);

/// <summary>What became of a try.</summary>
/// <param name="Destination">To whom.</param>
/// <param name="Outcome">What became of it.</param>
/// <param name="AnswerCode">The answer's HTTP status code; null if there was none.</param>
/// <param name="Attempt">Which try, from 1.</param>
/// <param name="Location">Where the other system keeps it; null if it did not say.</param>
/// <param name="Reason">Why, in words; empty for nothing.</param>
public sealed record OutboxStep(
    string Destination,
    SendingOutcome Outcome,
    int? AnswerCode,
    int Attempt,
    string? Location,
    string Reason
);
