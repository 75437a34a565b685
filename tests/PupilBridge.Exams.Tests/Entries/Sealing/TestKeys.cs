using System.Security.Cryptography;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Exams.Tests.Entries.Sealing;

/// <summary>Keys in memory, of which some can be taken away.</summary>
internal sealed class TestKeys : ISubjectKeys
{
    private readonly Dictionary<PatientId, KeySlot> patients = [];
    private long texts;

    public HashSet<KeySlot> Destroyed { get; } = [];

    public HashSet<KeySlot> Damaged { get; } = [];

    public PreparedKeys Prepare(JournalEntry entry)
    {
        var needs = SealingNeeds.Of(entry);
        return new PreparedKeys(
            needs.Patients.ToDictionary(patient => patient, patient => Key(SlotOf(patient))),
            needs.HasText ? Key(KeySlot.OfText(texts++)) : null,
            SHA256.HashData([(byte)texts, 1]).AsMemory(0, 12)
        );
    }

    public KeySlot SlotOf(PatientId patient)
    {
        if (!patients.TryGetValue(patient, out var slot))
            patients[patient] = slot = KeySlot.OfPatient(patients.Count);
        return slot;
    }

    public KeyState Read(KeySlot slot, Span<byte> key)
    {
        if (Destroyed.Contains(slot))
            return KeyState.Destroyed;
        if (Damaged.Contains(slot))
            return KeyState.Unreadable;
        Key(slot).Bytes.Span.CopyTo(key);
        return KeyState.Present;
    }

    private static SubjectKey Key(KeySlot slot) => new(slot, SHA256.HashData(BitConverter.GetBytes(slot.Value)));
}
