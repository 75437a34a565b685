namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>A patient's number that is to be noted outside the journal, with the key under which it is sealed there.</summary>
/// <param name="Number">The number.</param>
/// <param name="Slot">Where the patient's key lies; null for a number that says nothing of anybody and stays open.</param>
/// <param name="Key">The key; empty where it was destroyed a moment ago, so that only its place is noted.</param>
public sealed record NumberToNote(PatientId Number, KeySlot? Slot, ReadOnlyMemory<byte> Key);
