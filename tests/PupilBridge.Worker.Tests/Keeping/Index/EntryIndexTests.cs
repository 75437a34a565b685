using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Keeping.Index;

namespace PupilBridge.Worker.Tests.Keeping.Index;

/// <summary>The entry index over a real journal: started, stopped, killed, damaged, and always with the right answer.</summary>
public sealed class EntryIndexTests : IDisposable
{
    private static readonly EntryIndexOptions Small = new() { IdsAtOnce = 50, EntriesAtOnce = 200 };
    private readonly TempFolder folder = new();
    private readonly RealDisk disk = new();
    private int remakes;

    public void Dispose() => folder.Dispose();

    private JournalFolder Journal => new(folder.Path);

    private string IndexFolder => Path.Combine(folder.Path, "entry-index");

    /// <summary>Writes entries: each third one a person's, with the id of its number; the others an instrument's.</summary>
    private void Record(int from, int count)
    {
        using var writer = JournalWriter.Open(disk, new JournalOptions { Folder = Journal });
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        for (var i = from; i < from + count; i++)
        {
            buffer.ResetWrittenCount();
            EntryCodec.Encode(i % 3 == 0 ? Note(i) : Event(i), buffer);
            writer.Append(buffer.WrittenSpan);
        }

        Assert.True(writer.StopCleanly().IsDurable);
    }

    private static NoteEntered Note(int number) =>
        new()
        {
            Id = IdOf(number),
            Who = new PersonId("MK"),
            At = default,
            ProgramVersion = "0",
            Exam = new ExamId(1),
            Text = "a remark",
        };

    private static InstrumentReported Event(int number) =>
        new()
        {
            Serial = new SerialNumber($"T-{number % 4}"),
            Boot = new BootNumber((ulong)(number / 1000) + 1),
            Sequence = number,
            RawLine = "EV,000000000000B007,1,5,REST,R,1000*0000ABCD",
            HappenedAt = default,
            UncertaintyMilliseconds = 0,
            ArrivedAt = default,
        };

    /// <summary>An id that looks drawn at random and follows from a number.</summary>
    private static EntryId IdOf(int number) =>
        new(((UInt128)((ulong)(uint)number * 0x9E3779B97F4A7C15UL) << 64) | (uint)number);

    private List<SequencedEntry> All()
    {
        using var reader = JournalReader.Settled(disk, Journal);
        return
        [
            .. reader
                .ReadAll()
                .Where(r => r.Class == RecordClass.Entry)
                .Select(r => new SequencedEntry(new JournalSequence(r.Sequence), EntryCodec.Decode(r.Payload.Span))),
        ];
    }

    private EntryIndex Open() =>
        EntryIndex.Open(
            disk,
            folder.Path,
            new IndexSource(
                sequence => JournalReader.Find(disk, Journal, sequence, long.MaxValue)?.Hash,
                () =>
                {
                    remakes++;
                    return All();
                }
            ),
            NullLogger.Instance,
            Small
        );

    /// <summary>Reads what the index lacks, as a start does.</summary>
    private (EntryIndex Index, KnownEntries Known, int Read) Start()
    {
        var index = Open();
        var known = new KnownEntries(index);
        using var reader = JournalReader.Settled(disk, Journal, index.Sequence + 1);
        var read = 0;
        foreach (var record in reader.ReadAll())
        {
            read++;
            var entry = record.Class == RecordClass.Entry ? EntryCodec.Decode(record.Payload.Span) : null;
            if (entry is not null)
                known.Add(new SequencedEntry(new JournalSequence(record.Sequence), entry));
            index.Take(record, entry);
            known.Settle();
        }

        known.Settle();
        return (index, known, read);
    }

    private static JournalSequence? Place(KnownEntries known, EntryId id)
    {
        while (true)
        {
            if (known.People.Find(id) is { } here)
                return here.Result;
            if (known.People.OnDisk.TryFind(id, out var place))
                return place;
            // The index is still being written, and a run was replaced by another: that one is looked at, as the keeper does.
            var before = known.People.OnDisk;
            known.Settle();
            Assert.NotSame(before, known.People.OnDisk);
        }
    }

    private void AssertKnowsAll(KnownEntries known)
    {
        var all = All();
        foreach (var entry in all.Where(entry => entry.Entry is PersonEntry))
            Assert.Equal(entry.Sequence, Place(known, ((PersonEntry)entry.Entry).Id));
        Assert.Null(Place(known, IdOf(-5)));
        var fresh = new KnownEntries();
        all.ForEach(fresh.Add);
        foreach (var reported in all.Select(entry => entry.Entry).OfType<InstrumentReported>().TakeLast(200))
        {
            var expected = fresh.Events.Find(reported.Serial, reported.Boot)!;
            var found = known.Events.Find(reported.Serial, reported.Boot)!;
            Assert.Equal(expected.Prints, found.Prints);
            Assert.Equal(expected with { Prints = [] }, found with { Prints = [] });
        }
    }

    [Fact]
    public async Task A_start_after_a_clean_stop_reads_nothing_and_knows_all()
    {
        Record(1, 5_000);
        var (first, known, read) = Start();
        Assert.True(read > 5_000 - 1);
        AssertKnowsAll(known);
        await first.CloseAsync();
        known.Settle();
        Assert.Equal(0, known.People.InMemory);
        first.Dispose();

        var (second, again, more) = Start();
        Assert.Equal(0, more);
        Assert.Equal(0, again.People.InMemory);
        AssertKnowsAll(again);
        second.Dispose();
    }

    [Fact]
    public async Task What_came_after_it_was_written_last_is_read_from_the_journal()
    {
        Record(1, 1_000);
        var (first, _, _) = Start();
        await first.CloseAsync();
        first.Dispose();
        Record(1_001, 700);

        var (second, known, read) = Start();
        Assert.InRange(read, 700, 702);
        AssertKnowsAll(known);
        second.Dispose();
    }

    [Fact]
    public async Task Runs_stay_few_however_many_ids_there_are()
    {
        for (var day = 0; day < 30; day++)
        {
            Record(1 + (day * 200), 200);
            var (index, known, _) = Start();
            await index.CloseAsync();
            Assert.InRange(index.Settled.Ids.Runs.Count, 1, 16);
            if (day % 10 == 9)
            {
                known.Settle();
                AssertKnowsAll(known);
            }

            index.Dispose();
            Assert.InRange(Directory.GetFiles(IndexFolder, "*.ids").Length, 1, 16);
            Assert.Single(Directory.GetFiles(IndexFolder, "*.known"));
        }
    }

    /// <summary>An index of another journal, or of an end that was cut off, does not fit.</summary>
    [Fact]
    public async Task An_index_that_does_not_fit_the_journal_is_thrown_away()
    {
        Record(1, 1_000);
        var (first, _, _) = Start();
        await first.CloseAsync();
        first.Dispose();
        Directory.Delete(Journal.Segments, recursive: true);
        Record(1_001, 1_500);

        var (second, known, read) = Start();
        Assert.True(read >= 1_500);
        Assert.Null(Place(known, IdOf(3)));
        AssertKnowsAll(known);
        second.Dispose();
    }

    [Fact]
    public async Task Damage_to_any_file_is_mended_from_the_journal()
    {
        Record(1, 2_000);
        var (first, _, _) = Start();
        await first.CloseAsync();
        first.Dispose();
        var dice = new Random(11);
        var (begunAnew, remade) = (0, 0);
        var whole = Directory.GetFiles(IndexFolder).ToDictionary(path => path, File.ReadAllBytes);
        foreach (var damaged in whole.Keys)
        {
            for (var round = 0; round < 4; round++)
            {
                Directory.Delete(IndexFolder, recursive: true);
                Directory.CreateDirectory(IndexFolder);
                foreach (var (path, content) in whole)
                    File.WriteAllBytes(path, content);
                var bytes = (byte[])whole[damaged].Clone();
                bytes[dice.Next(bytes.Length)] ^= (byte)(1 << dice.Next(8));
                File.WriteAllBytes(damaged, bytes);

                var (index, known, read) = Start();
                begunAnew += read > 0 ? 1 : 0;
                remade += await MendWhereNeeded(index, known) ? 1 : 0;
                AssertKnowsAll(known);
                index.Dispose();
            }
        }

        // Both ways must have been gone.
        Assert.True(begunAnew > 0 && remade > 0, $"{begunAnew} begun anew, {remade} remade");
        Assert.Equal(remade, remakes);
    }

    private async Task<bool> MendWhereNeeded(EntryIndex index, KnownEntries known)
    {
        try
        {
            AssertKnowsAll(known);
            return false;
        }
        catch (IndexDamagedException)
        {
            await known.MendAsync();
            known.Settle();
            Assert.False(index.Settled.Ids.Runs.Count == 0);
            return true;
        }
    }
}
