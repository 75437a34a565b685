using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>Segments in the clear in place of encrypted ones, put there by somebody without the key who mends checksums and chain.</summary>
public sealed class ClearInPlaceTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 2)]
    [InlineData(1, 2)]
    public void Before_an_encrypted_segment_it_shows_at_that_ones_first_record(int first, int last)
    {
        FaultyDisk disk = ThreeSegments();
        Forgery.PutInTheClear(disk, first, last);
        // What a record under the key says of the chain before it is bound to its tag.
        Assert.Contains(
            MemoryJournal.Verify(disk).Problems,
            p => p is { Kind: ProblemKind.DamagedRecords, File: "segment-0000000003.pbj", FirstSequence: 11 }
        );
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void At_the_end_it_shows_since_nothing_under_the_key_says_that_the_journal_goes_on_in_the_clear(int first)
    {
        FaultyDisk disk = ThreeSegments();
        Forgery.PutInTheClear(disk, first, 3);

        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.False(report.IsSound);
        AssertTold(Assert.Single(report.Problems), first);
        // No notice stands there at all, which shows without the key as well.
        AssertTold(
            Assert.Single(JournalVerifier.Verify(disk, MemoryJournal.Folder with { Keys = null }).Problems),
            first
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    [InlineData(11)]
    [InlineData(12)]
    public void A_reader_says_so_wherever_it_begins(int from)
    {
        FaultyDisk disk = ThreeSegments();
        Forgery.PutInTheClear(disk, 2, 3);
        using JournalReader reader = JournalReader.Settled(disk, MemoryJournal.Folder, from);
        Assert.Equal(13 - from, reader.ReadAll().Count());
        AssertTold(Assert.Single(reader.Problems), from < 11 ? 2 : 3);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_start_goes_on_and_says_so_once(bool encrypt)
    {
        FaultyDisk disk = ThreeSegments();
        Forgery.PutInTheClear(disk, 2, 3);
        for (int start = 1; start <= 3; start++)
        {
            using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: encrypt));
            Assert.Equal(start == 1 ? 1 : 0, writer.Start.Problems.Count);
            writer.Append("the clinic goes on"u8);
            Assert.True(writer.Commit().IsDurable);
        }
        List<JournalRecord> records = MemoryJournal.ReadAll(disk);
        Assert.Single(records, r => Notice(r) == ProblemKind.ClearUnannounced);
        Assert.Equal(encrypt ? 0 : 1, records.Count(r => Notice(r) == ProblemKind.GoesOnInTheClear));
        // What was put there stays told for good, whatever follows.
        AssertTold(Assert.Single(MemoryJournal.Verify(disk).Problems), 2);
    }

    [Fact]
    public void A_word_from_an_earlier_time_does_not_serve_once_something_encrypted_follows()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        MemoryJournal.Open(disk).Dispose();
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: true)))
        {
            writer.Append("under the key again"u8);
            Assert.True(writer.Commit().IsDurable);
        }
        // Segments 3 (the word) and 4 (in the clear) are as they were; 5 is encrypted, and 6 is put in the clear.
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: true)))
        {
            writer.Append("and again"u8);
            Assert.True(writer.Commit().IsDurable);
        }
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
        Forgery.PutInTheClear(disk, 6, 6);
        AssertTold(Assert.Single(MemoryJournal.Verify(disk).Problems), 6);
    }

    [Fact]
    public void A_header_that_is_altered_to_say_that_no_word_was_to_be_left_shows()
    {
        FaultyDisk disk = ThreeSegments();
        Forgery.PutInTheClear(disk, 3, 3);
        Forgery.AlterHeader(disk, 2, header => header.AsSpan(140, 4).Clear());
        Forgery.PutInTheClear(disk, 3, 3);
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.Contains(report.Problems, p => p is { Kind: ProblemKind.DamagedRecords, FirstSequence: 8 });
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Where_an_older_version_switched_encryption_off_it_is_read_and_remarked_on(bool encrypt)
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        List<JournalRecord> before = MemoryJournal.ReadAll(disk);
        OlderVersion.Rewrite(disk);
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
        // That version's next segment, in the clear, was written without a word.
        Forgery.PutInTheClear(disk, 2, 2);
        AssertRemarked(disk);
        Assert.Equal(before.Select(r => r.Sequence), MemoryJournal.ReadAll(disk).Select(r => r.Sequence));

        for (int start = 1; start <= 3; start++)
        {
            using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: encrypt));
            Assert.Empty(writer.Start.Problems);
            writer.Append("with this version"u8);
            Assert.True(writer.Commit().IsDurable);
        }
        Assert.Equal(
            encrypt ? 0 : 1,
            MemoryJournal.ReadAll(disk).Count(r => Notice(r) == ProblemKind.GoesOnInTheClear)
        );
        AssertRemarked(disk);
    }

    private static void AssertRemarked(FaultyDisk disk)
    {
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.True(report.IsSound);
        JournalProblem problem = Assert.Single(report.Problems);
        Assert.Equal((ProblemKind.ClearUnannounced, ProblemSeverity.Remark), (problem.Kind, problem.Severity));
    }

    private static void AssertTold(JournalProblem problem, int segment)
    {
        Assert.Equal((ProblemKind.ClearUnannounced, ProblemSeverity.Damage), (problem.Kind, problem.Severity));
        Assert.Equal(SegmentName.Of(segment), problem.File);
        Assert.Contains("backups", problem.Advice, StringComparison.Ordinal);
    }

    private static ProblemKind? Notice(JournalRecord record) =>
        record.Class == RecordClass.Notice ? JournalNotice.TryDecode(record.Payload.Span)?.Kind : null;

    /// <summary>Three runs, each with a segment of its own: sequences 1 to 7, 8 to 10, 11 to 12.</summary>
    private static FaultyDisk ThreeSegments()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: true));
        MemoryJournal.Append(writer, 11, 12);
        return disk;
    }
}
