namespace PupilBridge.Journal;

/// <summary>Entries that gather for one commit, each with the one who waits for it.</summary>
internal sealed class PendingBatch
{
    private readonly List<PendingEntry> _entries = [];

    public RecordBatch Records { get; } = new();

    public int Count => _entries.Count;

    public void Add(JournalSource source, ReadOnlySpan<byte> payload, IDurableListener? listener, long tag)
    {
        Records.Add(RecordClass.Entry, payload);
        _entries.Add(new PendingEntry(source, payload.Length, listener, tag));
    }

    public ReadOnlySpan<PendingEntry> Entries => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_entries);

    public void Clear()
    {
        _entries.Clear();
        Records.Clear();
    }
}

/// <summary>An entry in a batch.</summary>
internal readonly record struct PendingEntry(JournalSource Source, int Bytes, IDurableListener? Listener, long Tag);
