using System.Buffers;
using System.Diagnostics.CodeAnalysis;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Keeping;

/// <summary>
/// The one way into the journal: typed entries in, receipts out. It refuses a second copy of an event (serial number,
/// boot, number) and of a person's entry (its id), and tells in the journal's order what is on disk. While the disk
/// refuses, nothing is acknowledged and nothing is lost: entries wait, and <see cref="Trouble"/> says why.
/// </summary>
/// <remarks>Safe for several threads. Entries are recorded in the order in which they were given, whoever gave them.</remarks>
public sealed class JournalKeeper : IDurableListener
{
    private readonly Lock gate = new();
    private readonly JournalThread thread;
    private readonly KnownEntries known;
    private readonly EventIndex events;
    private readonly PersonIndex people;
    private readonly IRecordedListener listener;
    private readonly Queue<Pending> pending = [];
    private readonly ArrayBufferWriter<byte> buffer = new(512);
    private readonly EntrySource service;
    private readonly SubjectKeyStore? keys;
    private long nextTag;

    internal JournalKeeper(
        JournalThread thread,
        KnownEntries known,
        IRecordedListener listener,
        SubjectKeyStore? keys = null
    )
    {
        this.keys = keys;
        this.thread = thread;
        this.listener = listener;
        this.known = known;
        events = known.Events;
        people = known.People;
        service = OpenSource("the service");
    }

    /// <summary>Why nothing can be recorded at present, for a person; null when all is well.</summary>
    public string? Trouble => thread.Trouble?.Message;

    /// <summary>The durable position of the journal.</summary>
    public JournalPosition Durable => thread.Durable.Position;

    /// <summary>How many entries wait for the disk.</summary>
    public int Waiting
    {
        get
        {
            lock (gate)
                return pending.Count;
        }
    }

    /// <summary>Makes a source with a share of the room of its own.</summary>
    /// <param name="name">Its name, for a person.</param>
    internal EntrySource OpenSource(string name) => new(thread.OpenSource(name));

    /// <summary>Gives an entry that no person made. Its place in the order is fixed when this returns.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="source">Whose share it takes; null for that of the service itself.</param>
    /// <returns>False for a second copy of an event, which is not recorded again.</returns>
    /// <exception cref="JournalStoppedException">The journal has stopped.</exception>
    /// <exception cref="SourceFullException">The source has used up its share; wait until it has room again.</exception>
    internal bool Submit(JournalEntry entry, EntrySource? source = null)
    {
        lock (gate)
        {
            if (!events.IsNew(entry))
                return false;
            Post_NeedsGate(entry, source ?? service, null);
            events.Take(entry);
            return true;
        }
    }

    /// <summary>Records what a person entered, once, however often it is sent.</summary>
    /// <param name="entry">The entry, with the id made where it was typed.</param>
    /// <param name="cancellation">Gives up waiting; the entry may be recorded all the same, and can be sent again.</param>
    /// <returns>Its place in the journal once it is on disk; for a second copy, the place of the first.</returns>
    /// <exception cref="JournalStoppedException">The journal stopped first; the entry is not recorded.</exception>
    /// <exception cref="SourceFullException">Too many entries wait for the disk; the entry is not recorded.</exception>
    /// <exception cref="IOException">The keys under which it is to be sealed cannot be written; the entry is not recorded.</exception>
    public async Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(entry);
        PreparedKeys? sealing = null;
        while (true)
        {
            var (onDisk, here) = Look(entry.Id);
            if (here is null && await FindAsync(onDisk, entry.Id).ConfigureAwait(false) is { } place)
                return new Receipt(place, true);
            var isRepeat = here is not null;
            // Before the gate: a key is on disk before the entry that it seals, and instruments do not wait for that.
            sealing ??= here is null ? keys?.Prepare(entry) : null;
            if (here is null && !TryBegin(entry, sealing, onDisk, out here, out isRepeat))
                continue;
            return new Receipt(await here.WaitAsync(cancellation).ConfigureAwait(false), isRepeat);
        }
    }

    /// <summary>Whether a person's entry is recorded, or on its way to the disk.</summary>
    /// <param name="id">The entry's id.</param>
    /// <returns>True if it is.</returns>
    /// <exception cref="IOException">The entry index cannot be read, nor be made anew.</exception>
    public bool Knows(EntryId id)
    {
        var (onDisk, here) = Look(id);
        return here is not null || FindAsync(onDisk, id).GetAwaiter().GetResult() is not null;
    }

    /// <summary>How far the events of a boot are known.</summary>
    /// <param name="serial">The instrument.</param>
    /// <param name="boot">The boot.</param>
    internal EventPosition? Find(SerialNumber serial, BootNumber boot)
    {
        lock (gate)
            return events.Find(serial, boot);
    }

    /// <summary>The boots of an instrument whose end the journal does not tell, without the present one.</summary>
    internal IReadOnlyList<OpenBoot> OpenBoots(SerialNumber serial, BootNumber present)
    {
        lock (gate)
            return events.OpenBoots(serial, present);
    }

    /// <summary>A number for a command that was never used with this instrument.</summary>
    internal uint NextCommand(SerialNumber serial)
    {
        lock (gate)
            return events.NextCommand(serial);
    }

    /// <inheritdoc/>
    void IDurableListener.OnDurable(long tag, long sequence)
    {
        var place = new JournalSequence(sequence);
        Pending done;
        lock (gate)
        {
            known.Settle();
            done = Take_NeedsGate(tag);
            events.SetDurable(done.Entry);
            if (done.Entry is PersonEntry person)
                people.Recorded(person.Id, place);
        }

        done.Waiter?.TrySetResult(place);
        listener.OnRecorded(new SequencedEntry(place, done.Entry));
        if (sequence == thread.Durable.Position.Sequence)
            listener.OnCaughtUp();
    }

    /// <inheritdoc/>
    void IDurableListener.OnNotRecorded(long tag, string reason)
    {
        Pending failed;
        lock (gate)
        {
            failed = Take_NeedsGate(tag);
            if (failed.Entry is PersonEntry person)
                people.Forget(person.Id);
        }

        failed.Waiter?.TrySetException(new JournalStoppedException(reason));
    }

    private (RecordedIds OnDisk, Task<JournalSequence>? Here) Look(EntryId id)
    {
        lock (gate)
        {
            known.Settle();
            return (people.OnDisk, people.Find(id));
        }
    }

    /// <summary>Looks among the ids on disk, outside the gate: nobody else waits for it.</summary>
    private async Task<JournalSequence?> FindAsync(RecordedIds onDisk, EntryId id)
    {
        while (true)
        {
            try
            {
                if (onDisk.TryFind(id, out var place))
                    return place;
            }
            catch (IndexDamagedException)
            {
                // Whether the entry is there must be known for certain, so it waits until the ids are there again.
                await known.MendAsync().ConfigureAwait(false);
            }

            (onDisk, _) = Look(id);
        }
    }

    /// <summary>Gives an entry to the journal that is not among the ids on disk.</summary>
    /// <returns>False if more ids are on disk by now than were looked at.</returns>
    private bool TryBegin(
        PersonEntry entry,
        PreparedKeys? sealing,
        RecordedIds lookedAt,
        [NotNullWhen(true)] out Task<JournalSequence>? recorded,
        out bool isRepeat
    )
    {
        lock (gate)
        {
            recorded = people.Find(entry.Id);
            isRepeat = recorded is not null;
            if (recorded is not null)
                return true;
            if (!ReferenceEquals(people.OnDisk, lookedAt))
                return false;
            var waiter = new TaskCompletionSource<JournalSequence>(TaskCreationOptions.RunContinuationsAsynchronously);
            Post_NeedsGate(entry, service, waiter, sealing);
            people.Begin(entry.Id, waiter.Task);
            recorded = waiter.Task;
            return true;
        }
    }

    private void Post_NeedsGate(
        JournalEntry entry,
        EntrySource source,
        TaskCompletionSource<JournalSequence>? waiter,
        PreparedKeys? sealing = null
    )
    {
        buffer.ResetWrittenCount();
        EntryCodec.Encode(entry, sealing, buffer);
        if (!source.Journal.TryPost(buffer.WrittenSpan, this, nextTag))
            throw new SourceFullException(source.Name);
        // The journal's thread may know of the entry already; it cannot tell before the gate is free.
        pending.Enqueue(new Pending(nextTag++, entry, source, waiter));
        source.Took();
    }

    private Pending Take_NeedsGate(long tag)
    {
        var next = pending.Dequeue();
        next.Source.LetGo();
        return next.Tag == tag
            ? next
            : throw new InvalidOperationException(
                $"The journal told of entry {tag} while {next.Tag} was to come first."
            );
    }

    private sealed record Pending(
        long Tag,
        JournalEntry Entry,
        EntrySource Source,
        TaskCompletionSource<JournalSequence>? Waiter
    );
}
