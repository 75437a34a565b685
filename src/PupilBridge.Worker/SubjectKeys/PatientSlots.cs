using System.Buffers.Binary;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;

namespace PupilBridge.Worker.SubjectKeys;

/// <summary>
/// Where patients' keys lie in their file: tables one behind the other, each twice as large as the one before. In each table a patient has
/// a run of places by a keyed digest of the number, so that a key is found by a few short reads and nothing is held in memory. A place,
/// once used, is never used again. Not safe for several threads.
/// </summary>
internal sealed class PatientSlots(IJournalFile file)
{
    private const int FirstTable = 1024;
    private const int Run = 32;

    /// <summary>The place where the keys of a patient lie, all of them; more than one only after damage.</summary>
    public IReadOnlyList<KeySlot> Find(ReadOnlySpan<byte> tag) => Find(tag, withRemains: false);

    /// <summary>
    /// All places that hold something of a patient: keys, and what a write that was cut off left of one. Its beginning is enough to tell
    /// whether a number had been here.
    /// </summary>
    public IReadOnlyList<KeySlot> FindAll(ReadOnlySpan<byte> tag) => Find(tag, withRemains: true);

    private List<KeySlot> Find(ReadOnlySpan<byte> tag, bool withRemains)
    {
        List<KeySlot> found = [];
        var run = new byte[Run * SlotBytes.Length];
        for (var table = TableCount - 1; table >= 0; table--)
        {
            var from = ReadRun(table, tag, run);
            for (var i = 0; i < Run; i++)
            {
                var slot = KeySlot.OfPatient(from + i);
                var bytes = run.AsSpan(i * SlotBytes.Length, SlotBytes.Length);
                var isTheirs =
                    SlotBytes.Read(bytes, slot) == SlotState.Key
                        ? SlotBytes.Tag(bytes).SequenceEqual(tag)
                        : withRemains && SlotBytes.MayRemainOf(bytes, slot, tag);
                if (isTheirs)
                    found.Add(slot);
            }
        }

        return found;
    }

    /// <summary>A free place for a patient who has none; the file grows where there is none in it.</summary>
    public KeySlot FindFree(ReadOnlySpan<byte> tag)
    {
        if (TableCount == 0)
            Grow();
        var run = new byte[Run * SlotBytes.Length];
        while (true)
        {
            var from = ReadRun(TableCount - 1, tag, run);
            for (var i = 0; i < Run; i++)
            {
                var slot = KeySlot.OfPatient(from + i);
                var bytes = run.AsSpan(i * SlotBytes.Length, SlotBytes.Length);
                if (SlotBytes.Read(bytes, slot) == SlotState.Free)
                    return slot;
            }

            Grow();
        }
    }

    /// <summary>Where a place begins in the file.</summary>
    public static long OffsetOf(KeySlot slot) => KeyFileHead.Length + (slot.Place * SlotBytes.Length);

    private int TableCount
    {
        get
        {
            var places = (file.Length - KeyFileHead.Length) / SlotBytes.Length;
            var count = 0;
            while (BaseOf(count + 1) <= places)
                count++;
            return count;
        }
    }

    private static long BaseOf(int table) => FirstTable * ((1L << table) - 1);

    private static long PlacesOf(int table) => (long)FirstTable << table;

    private void Grow() => file.SetLength(KeyFileHead.Length + (BaseOf(TableCount + 1) * SlotBytes.Length));

    /// <summary>Reads the run of places that a patient has in a table.</summary>
    private long ReadRun(int table, ReadOnlySpan<byte> tag, Span<byte> run)
    {
        var first = BinaryPrimitives.ReadUInt64LittleEndian(tag) % (ulong)(PlacesOf(table) - Run + 1);
        var from = BaseOf(table) + (long)first;
        run.Clear();
        file.Read(run, OffsetOf(KeySlot.OfPatient(from)));
        return from;
    }
}
