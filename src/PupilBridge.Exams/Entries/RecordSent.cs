namespace PupilBridge.Exams.Entries;

/// <summary>What became of sending a signed version to another system.</summary>
public enum SendingOutcome
{
    /// <summary>
    /// The first try begins. Written before a byte leaves the house: whoever finds this and nothing after it must ask the other system
    /// whether the record is there, and must not simply send it.
    /// </summary>
    Begun = 1,

    /// <summary>The other system has it.</summary>
    Sent = 2,

    /// <summary>The other system refused it, or it cannot be made into a message; sending it again as it is would not help.</summary>
    Refused = 3,

    /// <summary>The answer says nothing that can be believed: it may be there or not. It is asked for before it is sent again.</summary>
    Doubtful = 4,

    /// <summary>The other system has it more than once; nothing more is sent of it until a person has looked.</summary>
    Doubled = 6,
}

/// <summary>
/// One step in the sending of a signed version, or of the word that it is not valid any more. The service writes it, under its own name
/// (<see cref="Service"/>). What was sent stands in the journal, so that nothing built anew sends it twice.
/// </summary>
public sealed record RecordSent : ExamEntry
{
    /// <summary>The most characters that an address, an id or a reason keeps of what another system said.</summary>
    public const int MaxText = 1_000;

    /// <summary>The name under which the service writes what it did by itself.</summary>
    public static PersonId Service { get; } = new("pupilbridge");

    /// <summary>The signed version, from 1.</summary>
    public required int Version { get; init; }

    /// <summary>Whether it is about taking the version back at the other system, since the exam was set aside.</summary>
    public required bool IsWithdrawal { get; init; }

    /// <summary>To whom, by the name that an administrator gave.</summary>
    public required string Destination { get; init; }

    /// <summary>What became of it.</summary>
    public required SendingOutcome Outcome { get; init; }

    /// <summary>The other system's answer as an HTTP status code; null if it gave none.</summary>
    public required int? AnswerCode { get; init; }

    /// <summary>Which try it was, from 1.</summary>
    public required int Attempt { get; init; }

    /// <summary>Under which address or id the other system keeps it; null if it did not say.</summary>
    public required string? Location { get; init; }

    /// <summary>
    /// Why, in words: what the other system said. Protected, since it may repeat what the record says. Empty for nothing,
    /// null once it has been erased.
    /// </summary>
    public required string? Reason { get; init; }
}
