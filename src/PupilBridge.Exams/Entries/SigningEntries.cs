namespace PupilBridge.Exams.Entries;

/// <summary>
/// A clinician signed an exam's record. What was signed is the text itself, byte for byte in UTF-8: it is read out of the
/// journal for ever after and never made anew.
/// </summary>
public sealed record ExamSigned : ExamEntry
{
    /// <summary>
    /// The most bytes that a record may have in UTF-8. One entry of the journal holds at most 65,536 bytes; the rest is for who,
    /// when and why.
    /// </summary>
    public const int MaxRecordBytes = 60_000;

    /// <summary>The version that this is: 1 for the first signature, one more for each amendment.</summary>
    public required int Version { get; init; }

    /// <summary>
    /// The signed record: protected, at most <see cref="MaxRecordBytes"/> bytes in UTF-8. Null once it has been erased.
    /// </summary>
    public required string? Record { get; init; }

    /// <summary>
    /// The reason of the amendment: free text, protected. Null for version 1, and once it has been erased.
    /// </summary>
    public required string? Reason { get; init; }

    /// <summary>
    /// The last entry of the exam that the record knows of; null if nobody said. A signature is not taken if the exam has got
    /// a later one since, so that nobody signs what they did not see.
    /// </summary>
    public JournalSequence? MadeUpTo { get; init; }
}

/// <summary>
/// A clinician began to amend a signed exam: until it is signed anew, people's entries apply to it again. The versions signed
/// so far stay as they are.
/// </summary>
public sealed record AmendmentBegun : ExamEntry
{
    /// <summary>The most bytes that the reason may have in UTF-8, so that it fits beside the record that is signed for it.</summary>
    public const int MaxReasonBytes = 2_000;

    /// <summary>Why: free text, protected, not blank. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}
