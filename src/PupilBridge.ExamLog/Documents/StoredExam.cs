using PupilBridge.Exams.Values;

namespace PupilBridge.ExamLog;

/// <summary>
/// One exam as it lies in the exam log: the few fields that lists ask for, and the whole exam beside them as opaque bytes.
/// </summary>
public sealed record StoredExam
{
    /// <summary>The exam's own id; not empty.</summary>
    public required string Id { get; init; }

    /// <summary>The patient's number in the clinic; null while the exam is attached to nobody.</summary>
    public string? PatientId { get; init; }

    /// <summary>When the exam opened; kept in UTC to the millisecond.</summary>
    public required DateTimeOffset OpenedAt { get; init; }

    /// <summary>The exam's status in the word that lists filter by.</summary>
    public required string Status { get; init; }

    /// <summary>The serial number of the instrument.</summary>
    public required string Instrument { get; init; }

    /// <summary>The examiner's initials; null if nobody has said.</summary>
    public string? Examiner { get; init; }

    /// <summary>What was found, in short words to search by, each once and in the order of their characters.</summary>
    public ValueList<string> Findings { get; init; }

    /// <summary>Whether it stands on the list of exams to review, and where.</summary>
    public ReviewTurn Review { get; init; }

    /// <summary>The chart text in one line, for lists; may be empty.</summary>
    public string ChartLine { get; init; } = "";

    /// <summary>The whole exam. The exam log never looks inside.</summary>
    public required ReadOnlyMemory<byte> Body { get; init; }
}
