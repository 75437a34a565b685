using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;

namespace PupilBridge.Worker.SubjectKeys;

/// <summary>
/// Where texts' keys lie in their file: one behind the other, made and synced many at once, so that an entry rarely waits for it. What is
/// left of them at the end of a run is left unused. Not safe for several threads.
/// </summary>
/// <param name="file">The file.</param>
/// <param name="makeSlot">Writes a new key into a slot and gives the key.</param>
internal sealed class TextSlots(IJournalFile file, TextSlots.MakeSlot makeSlot)
{
    private const int MadeAtOnce = 64;
    private readonly Queue<SubjectKey> ready = [];

    /// <summary>Writes a new key into a slot and gives the key.</summary>
    public delegate byte[] MakeSlot(KeySlot place, Span<byte> slot);

    /// <summary>A key that was never used.</summary>
    public SubjectKey Next()
    {
        if (ready.Count == 0)
            Make();
        return ready.Dequeue();
    }

    /// <summary>Where a place begins in the file.</summary>
    public static long OffsetOf(KeySlot slot) => slot.Place * SlotBytes.Length;

    private void Make()
    {
        // Beyond whatever a crash left half written.
        var first = (file.Length + SlotBytes.Length - 1) / SlotBytes.Length;
        var slots = new byte[MadeAtOnce * SlotBytes.Length];
        List<SubjectKey> made = [];
        for (var i = 0; i < MadeAtOnce; i++)
        {
            var place = KeySlot.OfText(first + i);
            made.Add(new(place, makeSlot(place, slots.AsSpan(i * SlotBytes.Length, SlotBytes.Length))));
        }

        file.Write(slots, first * SlotBytes.Length);
        file.Sync();
        made.ForEach(ready.Enqueue);
    }
}
