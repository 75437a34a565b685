using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Entries;

/// <summary>
/// One thing that the journal keeps for good: what an instrument said, what a person entered, or what happened to the
/// service. Entries are values; nothing in them is ever corrected, only followed by later entries.
/// </summary>
public abstract record JournalEntry;

/// <summary>An entry that the service makes by itself.</summary>
public abstract record SystemEntry : JournalEntry
{
    /// <summary>When it was made, by the clock of the machine that the service runs on.</summary>
    public required UtcTime At { get; init; }
}

/// <summary>An entry that a person made.</summary>
public abstract record PersonEntry : JournalEntry
{
    /// <summary>Its name, made where it was typed; a second entry of the same name is the same entry, sent again.</summary>
    public required EntryId Id { get; init; }

    /// <summary>Who made it.</summary>
    public required PersonId Who { get; init; }

    /// <summary>When it was made, by the clock of the machine where it was typed.</summary>
    public required UtcTime At { get; init; }

    /// <summary>The version of the program in which it was typed.</summary>
    public required string ProgramVersion { get; init; }
}

/// <summary>What a person entered about one exam.</summary>
public abstract record ExamEntry : PersonEntry
{
    /// <summary>The exam that the person saw.</summary>
    public required ExamId Exam { get; init; }
}

/// <summary>An entry with its place in the journal.</summary>
/// <param name="Sequence">Its place; 1 is the first.</param>
/// <param name="Entry">What it says.</param>
public sealed record SequencedEntry(JournalSequence Sequence, JournalEntry Entry)
{
    /// <summary>The keys under which its texts are sealed; none where it holds none, or they are plain.</summary>
    public ValueList<KeySlot> Texts { get; init; }
}
