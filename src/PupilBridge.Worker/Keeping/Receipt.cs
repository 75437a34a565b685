using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping;

/// <summary>That an entry of a person is on disk.</summary>
/// <param name="Sequence">Its place in the journal.</param>
/// <param name="IsRepeat">Whether the same entry had been given before; the place is that of the first.</param>
public readonly record struct Receipt(JournalSequence Sequence, bool IsRepeat);
