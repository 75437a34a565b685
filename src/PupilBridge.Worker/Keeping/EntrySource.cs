using PupilBridge.Journal;

namespace PupilBridge.Worker.Keeping;

/// <summary>One who gives entries, with a share of the room of its own and the count of what waits. Safe from any thread.</summary>
/// <param name="journal">The source as the journal has it.</param>
internal sealed class EntrySource(JournalSource journal)
{
    private readonly Lock gate = new();
    private TaskCompletionSource? room;
    private int roomBelow;
    private int waiting;

    public JournalSource Journal => journal;

    public string Name => journal.Name;

    /// <summary>How many of its entries wait for the disk.</summary>
    public int Waiting => Volatile.Read(ref waiting);

    /// <summary>Waits until fewer than so many entries wait; by one waiter at a time.</summary>
    /// <param name="count">The number, from 1.</param>
    public Task RoomAsync(int count)
    {
        lock (gate)
        {
            if (waiting < count)
                return Task.CompletedTask;
            roomBelow = count;
            room = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            return room.Task;
        }
    }

    public void Took() => Interlocked.Increment(ref waiting);

    public void LetGo()
    {
        lock (gate)
        {
            if (Interlocked.Decrement(ref waiting) >= roomBelow)
                return;
            room?.TrySetResult();
            room = null;
        }
    }
}
