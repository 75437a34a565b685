using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Writing;

/// <summary>A journal without a thread does on each step what the thread does on each turn.</summary>
public sealed class SteppedJournalTests
{
    [Fact]
    public void A_step_commits_what_gathered_and_tells_in_order()
    {
        var disk = new FaultyDisk(1);
        using var journal = JournalThread.Stepped(MemoryJournal.Open(disk));
        var told = new Told();
        Post(journal, told, 1, 3);

        Assert.Empty(told.Recorded);
        Assert.True(journal.Step() is { IsDurable: true });
        Assert.Equal([(1, 1), (2, 2), (3, 3)], told.Recorded);
        Assert.Null(journal.Step());
    }

    [Fact]
    public void What_a_failed_step_could_not_commit_is_tried_again_by_the_next()
    {
        var disk = new FaultyDisk(1);
        using var journal = JournalThread.Stepped(MemoryJournal.Open(disk));
        var told = new Told();
        Post(journal, told, 1, 2);
        disk.FailAt = disk.Operations + 1;

        Assert.True(journal.Step() is { IsDurable: false });
        Assert.NotNull(journal.Trouble);
        Assert.Empty(told.Recorded);
        Assert.True(journal.Step() is { IsDurable: true });
        Assert.Null(journal.Trouble);
        Assert.Equal([(1, 1), (2, 2)], told.Recorded);
    }

    [Fact]
    public void A_stop_records_what_was_given_and_a_disposal_refuses_it()
    {
        var disk = new FaultyDisk(1);
        var told = new Told();
        using (var journal = JournalThread.Stepped(MemoryJournal.Open(disk)))
        {
            Post(journal, told, 1, 2);
            Assert.True(journal.Stop());
        }

        Assert.Equal([(1, 1), (2, 2)], told.Recorded);
        using (var journal = JournalThread.Stepped(MemoryJournal.Open(disk)))
            Post(journal, told, 7, 7);
        Assert.Equal([7], told.Refused);
        Assert.Equal(2, told.Recorded.Count);
    }

    private static void Post(JournalThread journal, Told told, long first, long last)
    {
        var source = journal.OpenSource("quay");
        for (var tag = first; tag <= last; tag++)
            Assert.True(source.TryPost(Encoding.UTF8.GetBytes($"entry {tag}"), told, tag));
    }

    private sealed class Told : IDurableListener
    {
        public List<(long Tag, long Sequence)> Recorded { get; } = [];

        public List<long> Refused { get; } = [];

        public void OnDurable(long tag, long sequence) => Recorded.Add((tag, sequence));

        public void OnNotRecorded(long tag, string reason) => Refused.Add(tag);
    }
}
