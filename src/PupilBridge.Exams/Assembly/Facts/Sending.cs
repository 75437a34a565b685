using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>One step in the sending of a signed version to another system.</summary>
/// <param name="Entry">The entry's name.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">The service, or the person who decided.</param>
/// <param name="At">When.</param>
/// <param name="Version">The signed version.</param>
/// <param name="IsWithdrawal">Whether it is about taking the version back.</param>
/// <param name="Destination">To whom; empty where a person decided.</param>
/// <param name="Outcome">What became of it; null where a person decided.</param>
/// <param name="Decision">What a person decided; null where something was tried.</param>
/// <param name="AnswerCode">The answer's HTTP status code; null if there was none.</param>
/// <param name="Attempt">Which try, from 1; 0 where a person decided.</param>
/// <param name="Location">Where the other system keeps it; null if it did not say.</param>
/// <param name="Reason">Why; empty for nothing, null once it has been erased.</param>
public sealed record Sending(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    int Version,
    bool IsWithdrawal,
    string Destination,
    SendingOutcome? Outcome,
    SendingDecision? Decision,
    int? AnswerCode,
    int Attempt,
    string? Location,
    string? Reason
);
