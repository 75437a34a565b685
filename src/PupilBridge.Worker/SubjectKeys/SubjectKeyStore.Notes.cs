using System.Buffers.Binary;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Worker.SubjectKeys;

/// <content>Keys for notes outside the journal that name patients, such as those of the audit trail.</content>
public sealed partial class SubjectKeyStore
{
    /// <summary>
    /// By what patients were found whose keys were destroyed since this was opened: whoever was shown the number a moment before must
    /// not have a new key made for it.
    /// </summary>
    private readonly Dictionary<UInt128, KeySlot> destroyed = [];

    /// <summary>The key under which the number of a patient who was shown is noted, on disk when this returns.</summary>
    /// <param name="shown">The number, or what stands for one.</param>
    /// <exception cref="IOException">A key was needed and cannot be written.</exception>
    public NumberToNote ToNote(PatientId shown)
    {
        if (SealedNumbers.IsReserved(shown.Value))
            return new NumberToNote(shown, null, default);
        lock (gate)
        {
            if (destroyed.TryGetValue(ShortTag(TagOf(shown)), out var gone))
                return new NumberToNote(shown, gone, default);
            var (key, isSettled) = FindOrMake_NeedsGate(shown);
            Settle_NeedsGate([(key, isSettled)]);
            return new NumberToNote(shown, key.Slot, key.Bytes);
        }
    }

    /// <summary>The key under which a number is noted that somebody asked for, whether or not anybody bears it; none is ever made.</summary>
    /// <param name="asked">The number.</param>
    /// <returns>Null where no patient bears it: it may be that of one who was erased, and is not to be noted.</returns>
    public NumberToNote? ToNoteIfKnown(PatientId asked)
    {
        if (SealedNumbers.IsReserved(asked.Value))
            return new NumberToNote(asked, null, default);
        var bytes = new byte[ISubjectKeys.KeyBytes];
        foreach (var slot in Find(asked))
        {
            if (Read(slot, bytes) == KeyState.Present)
                return new NumberToNote(asked, slot, bytes);
        }

        return null;
    }

    /// <summary>Remembers whose key is about to be destroyed.</summary>
    private void Remember_NeedsGate(KeySlot slot)
    {
        if (slot.IsText)
            return;
        var bytes = new byte[SlotBytes.Length];
        try
        {
            patientFile.Read(bytes, PatientSlots.OffsetOf(slot));
        }
        catch (IOException)
        {
            // A place that cannot be read is overwritten all the same.
            return;
        }

        if (SlotBytes.Read(bytes, slot) == SlotState.Key)
            destroyed[ShortTag(SlotBytes.Tag(bytes))] = slot;
    }

    /// <summary>Whoever is entered under the number of an erased patient is another one.</summary>
    private void Forget_NeedsGate(IReadOnlyList<PatientId> entered)
    {
        if (destroyed.Count == 0)
            return;
        foreach (var patient in entered)
            destroyed.Remove(ShortTag(TagOf(patient)));
    }

    private static UInt128 ShortTag(ReadOnlySpan<byte> tag) => BinaryPrimitives.ReadUInt128LittleEndian(tag);
}
