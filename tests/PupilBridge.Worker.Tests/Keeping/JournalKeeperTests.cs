using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;

namespace PupilBridge.Worker.Tests.Keeping;

public sealed class JournalKeeperTests : IDisposable
{
    private static readonly SerialNumber Serial = new("T-100");
    private static readonly BootNumber Boot = new(0xB007);
    private readonly TempFolder folder = new();
    private readonly FailingDisk disk = new();
    private readonly Listener listener = new();
    private JournalThread thread;
    private JournalKeeper keeper;

    public JournalKeeperTests() => (thread, keeper) = Open();

    public void Dispose()
    {
        thread.Dispose();
        folder.Dispose();
    }

    private (JournalThread, JournalKeeper) Open()
    {
        var journal = new JournalFolder(folder.Path);
        var opened = new JournalThread(JournalWriter.Open(disk, new JournalOptions { Folder = journal }));
        var known = new KnownEntries();
        foreach (var entry in Read())
            known.Add(entry);
        return (opened, new JournalKeeper(opened, known, listener));
    }

    private List<SequencedEntry> Read()
    {
        using var reader = JournalReader.Settled(disk, new JournalFolder(folder.Path));
        return
        [
            .. reader
                .ReadAll()
                .Where(r => r.Class == RecordClass.Entry)
                .Select(r => new SequencedEntry(new JournalSequence(r.Sequence), EntryCodec.Decode(r.Payload.Span))),
        ];
    }

    private static InstrumentReported Event(
        long sequence,
        string line = "EV,000000000000B007,1,5,REST,R,1000*00000000"
    ) =>
        new()
        {
            Serial = Serial,
            Boot = Boot,
            Sequence = sequence,
            RawLine = line,
            HappenedAt = default,
            UncertaintyMilliseconds = 0,
            ArrivedAt = default,
        };

    private static NoteEntered Note(int id, string text = "a remark") =>
        new()
        {
            Id = new EntryId((UInt128)id),
            Who = new PersonId("MK"),
            At = default,
            ProgramVersion = "0",
            Exam = new ExamId(1),
            Text = text,
        };

    [Fact]
    public async Task Entries_are_told_in_the_journals_order_once_they_are_on_disk()
    {
        for (var i = 1; i <= 100; i++)
            Assert.True(keeper.Submit(Event(i)));
        await Eventually.Is(() => listener.Recorded.Count == 100);

        Assert.Equal(
            Enumerable.Range(1, 100),
            listener.Recorded.Select(e => (int)((InstrumentReported)e.Entry).Sequence)
        );
        Assert.Equal(listener.Recorded, Read());
        Assert.Equal(0, keeper.Waiting);
        Assert.Equal(100, keeper.Find(Serial, Boot)!.Durable);
        Assert.True(listener.CaughtUp > 0);
    }

    [Fact]
    public async Task A_second_copy_of_an_event_is_refused_also_after_a_restart()
    {
        Assert.True(keeper.Submit(Event(1)));
        Assert.False(keeper.Submit(Event(1)));
        await Eventually.Is(() => listener.Recorded.Count == 1);
        thread.Stop();
        (thread, keeper) = Open();

        Assert.False(keeper.Submit(Event(1)));
        Assert.True(keeper.Submit(Event(2)));
        await Eventually.Is(() => listener.Recorded.Count == 2);
        Assert.Equal([1L, 2L], Read().Select(e => ((InstrumentReported)e.Entry).Sequence));
    }

    [Fact]
    public async Task A_second_copy_of_a_persons_entry_gets_the_receipt_of_the_first_also_after_a_restart()
    {
        var first = await keeper.RecordAsync(Note(7));
        var again = await keeper.RecordAsync(Note(7, "sent again"));
        Assert.Equal((first.Sequence, false, true), (again.Sequence, first.IsRepeat, again.IsRepeat));
        thread.Stop();
        (thread, keeper) = Open();

        var later = await keeper.RecordAsync(Note(7));
        Assert.Equal((first.Sequence, true), (later.Sequence, later.IsRepeat));
        Assert.Equal("a remark", Assert.IsType<NoteEntered>(Assert.Single(Read()).Entry).Text);
    }

    [Fact]
    public async Task Two_copies_of_a_persons_entry_at_once_become_one()
    {
        var receipts = await Task.WhenAll(
            Enumerable.Range(0, 50).Select(_ => Task.Run(() => keeper.RecordAsync(Note(7))))
        );
        Assert.Single(receipts.Select(r => r.Sequence).Distinct());
        Assert.Single(receipts, r => !r.IsRepeat);
        Assert.Single(Read());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_disk_that_refuses_loses_nothing_tells_nothing_and_goes_on_by_itself(bool full)
    {
        Assert.True(keeper.Submit(Event(1)));
        await Eventually.Is(() => listener.Recorded.Count == 1);
        (disk.IsFull, disk.IsBad) = (full, !full);
        for (var i = 2; i <= 20; i++)
            Assert.True(keeper.Submit(Event(i)));
        var note = keeper.RecordAsync(Note(7));
        await Eventually.Is(() => keeper.Trouble is not null && disk.Failures >= 2);
        Assert.Equal(full, keeper.Trouble!.Contains("is full", StringComparison.Ordinal));
        Assert.Contains(folder.Path, keeper.Trouble, StringComparison.Ordinal);
        Assert.Single(listener.Recorded);
        Assert.False(note.IsCompleted);
        Assert.Equal(20, keeper.Waiting);

        (disk.IsFull, disk.IsBad) = (false, false);
        await note;
        await Eventually.Is(() => keeper.Trouble is null && listener.Recorded.Count == 21);
        Assert.Equal(listener.Recorded, Read());
    }

    [Fact]
    public async Task What_was_not_recorded_when_the_journal_stopped_is_told_and_can_be_given_again()
    {
        disk.IsFull = true;
        var note = keeper.RecordAsync(Note(7));
        await Eventually.Is(() => keeper.Trouble is not null);
        Assert.False(thread.Stop(TimeSpan.FromSeconds(10)));
        await Assert.ThrowsAsync<JournalStoppedException>(() => note);

        disk.IsFull = false;
        (thread, keeper) = Open();
        Assert.False((await keeper.RecordAsync(Note(7))).IsRepeat);
    }

    [Fact]
    public async Task One_source_with_a_backlog_leaves_room_for_the_others()
    {
        disk.IsFull = true;
        var greedy = keeper.OpenSource("greedy");
        var i = 0L;
        Assert.Throws<SourceFullException>(() =>
        {
            while (i < 100_000)
                keeper.Submit(Event(++i), greedy);
        });
        Assert.Equal(i - 1, greedy.Waiting);
        Assert.Equal(i - 1, keeper.Find(Serial, Boot)!.Submitted);
        var room = greedy.RoomAsync(10);
        var note = keeper.RecordAsync(Note(7));
        Assert.False(room.IsCompleted);

        disk.IsFull = false;
        await note;
        await room.WaitAsync(TimeSpan.FromSeconds(30));
        await Eventually.Is(() => listener.Recorded.Count == i);
    }

    private sealed class Listener : IRecordedListener
    {
        private readonly List<SequencedEntry> recorded = [];

        public int CaughtUp { get; private set; }

        public IReadOnlyList<SequencedEntry> Recorded
        {
            get
            {
                lock (recorded)
                    return [.. recorded];
            }
        }

        public void OnRecorded(SequencedEntry entry)
        {
            lock (recorded)
                recorded.Add(entry);
        }

        public void OnCaughtUp() => CaughtUp++;
    }
}
