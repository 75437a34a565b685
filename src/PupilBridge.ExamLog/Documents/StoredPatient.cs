namespace PupilBridge.ExamLog;

/// <summary>One patient as the exam log knows them.</summary>
public sealed record StoredPatient
{
    /// <summary>The patient's number in the clinic; not empty.</summary>
    public required string Id { get; init; }

    /// <summary>
    /// The name, by whose words the patient is found; empty if the clinic wants none, or after an erasure. Names stand here, in the
    /// body and in the keys of the search, and nowhere else in the exam log.
    /// </summary>
    public string Name { get; init; } = "";

    /// <summary>What else is known, as opaque bytes; empty after an erasure.</summary>
    public required ReadOnlyMemory<byte> Body { get; init; }
}
