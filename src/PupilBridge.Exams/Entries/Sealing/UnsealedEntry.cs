using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>An entry as it was read, with what its keys gave.</summary>
/// <param name="Entry">
/// The entry. What was sealed under a key that is destroyed or damaged is null, or a number of <see cref="SealedNumbers"/>.
/// </param>
/// <param name="Texts">The keys of its texts, destroyed ones included.</param>
/// <param name="Unreadable">The keys that cannot be read though nobody destroyed them, or that do not fit.</param>
public sealed record UnsealedEntry(JournalEntry Entry, ValueList<KeySlot> Texts, ValueList<KeySlot> Unreadable);
