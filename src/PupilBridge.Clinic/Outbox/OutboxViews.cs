namespace PupilBridge.Clinic.Outbox;

/// <summary>Which part of the outbox to list.</summary>
public static class OutboxParts
{
    /// <summary>What the service works on.</summary>
    public const string Open = "open";

    /// <summary>What rests until a person decides: dead letters.</summary>
    public const string Stopped = "stopped";

    /// <summary>What is done with.</summary>
    public const string Settled = "settled";

    /// <summary>All parts.</summary>
    public static IReadOnlyList<string> All { get; } = [Open, Stopped, Settled];
}

/// <summary>A page of the outbox, in the order of signatures.</summary>
/// <param name="Sending">How the sending goes; null where no destination is set, so that nothing is sent.</param>
/// <param name="Items">The signed versions.</param>
/// <param name="Next">What to ask with for the next page; null at the end.</param>
public sealed record OutboxPage(SendingState? Sending, IReadOnlyList<OutboxLine> Items, string? Next);

/// <summary>How the sending goes just now.</summary>
/// <param name="Destination">The name that an administrator gave to the other system.</param>
/// <param name="Address">Its address.</param>
/// <param name="Trouble">Why nothing gets through at present, and what to do; null when all is well.</param>
/// <param name="RestsUntil">When it is tried again; null if it does not wait.</param>
/// <param name="LastSentAt">When something was sent last since the service started; null if nothing was.</param>
public sealed record SendingState(
    string Destination,
    string Address,
    string? Trouble,
    DateTimeOffset? RestsUntil,
    DateTimeOffset? LastSentAt
)
{
    /// <summary>Which versions did not get through when they were tried last, one of each patient at most; they are tried again.</summary>
    public IReadOnlyList<SendingDelay> Delays { get; init; } = [];
}

/// <summary>A version that did not get through, and is tried again by itself.</summary>
/// <param name="Exam">The exam's number.</param>
/// <param name="Version">The signed version.</param>
/// <param name="Tries">How often it was tried so far.</param>
/// <param name="Reason">Why it did not get through.</param>
public sealed record SendingDelay(long Exam, int Version, int Tries, string Reason);

/// <summary>One signed version on its way.</summary>
/// <param name="Exam">The exam's number.</param>
/// <param name="Version">The signed version.</param>
/// <param name="Patient">The patient's number; null if the exam belongs to nobody.</param>
/// <param name="SignedAt">When it was signed, in UTC.</param>
/// <param name="State">How far it is, in a word such as <c>refused</c>.</param>
/// <param name="StateWords">The same for a person.</param>
/// <param name="Attempts">How many tries stand in the journal.</param>
/// <param name="LastAt">When the last step was taken; null if none was.</param>
/// <param name="LastBy">Who took it; null if none was.</param>
/// <param name="Destination">To whom; null if nothing was tried.</param>
/// <param name="AnswerCode">The other system's last answer as an HTTP status code; null if there was none.</param>
/// <param name="Location">Where the other system keeps it; null if it did not say.</param>
/// <param name="Reason">Why it is so; null if there is nothing to say.</param>
/// <param name="CanRetry">Whether a person may have it tried again.</param>
/// <param name="CanWithhold">Whether a person may decide that it is not sent.</param>
public sealed record OutboxLine(
    long Exam,
    int Version,
    string? Patient,
    DateTimeOffset SignedAt,
    string State,
    string StateWords,
    int Attempts,
    DateTimeOffset? LastAt,
    string? LastBy,
    string? Destination,
    int? AnswerCode,
    string? Location,
    string? Reason,
    bool CanRetry,
    bool CanWithhold
);
