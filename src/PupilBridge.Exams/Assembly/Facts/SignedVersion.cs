using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>One version of an exam's record as it was signed.</summary>
/// <param name="Version">Which one, from 1.</param>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who signed.</param>
/// <param name="At">When.</param>
/// <param name="Reason">Why it was amended; null for version 1, and once it has been erased.</param>
/// <param name="Record">The record, exactly as signed; null once it has been erased.</param>
public sealed record SignedVersion(
    int Version,
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    string? Reason,
    string? Record
);

/// <summary>An amendment that was begun.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who began it.</param>
/// <param name="At">When.</param>
/// <param name="Reason">Why; null once it has been erased.</param>
public sealed record Amendment(EntryId Entry, JournalSequence Sequence, PersonId Who, UtcTime At, string? Reason);
