using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>That what identified an exam's patient was erased.</summary>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who did it.</param>
/// <param name="At">When.</param>
/// <param name="OrderedBy">Who ordered it.</param>
/// <param name="Reason">Why.</param>
public sealed record Erasure(JournalSequence Sequence, PersonId Who, UtcTime At, string OrderedBy, string Reason);

/// <summary>A text of an exam that is sealed under a key of its own.</summary>
/// <param name="Sequence">The journal entry that holds it.</param>
/// <param name="Key">Where its key lies.</param>
public sealed record SealedText(JournalSequence Sequence, KeySlot Key);
