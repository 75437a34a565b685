namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>A patient's number as it stands in a note outside the journal.</summary>
/// <param name="Slot">Where the key lies that opens it; null where the number stands open.</param>
/// <param name="Nonce">With which nonce it was sealed.</param>
/// <param name="Bytes">The sealed bytes with their tag, or the open number; empty where the key was gone already.</param>
/// <param name="Place">Its place among the note's numbers, from 1.</param>
public sealed record NotedNumber(KeySlot? Slot, ReadOnlyMemory<byte> Nonce, ReadOnlyMemory<byte> Bytes, int Place);
