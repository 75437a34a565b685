using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Tampering;

/// <summary>
/// Somebody with a full hand over the files alters the journal, checksums mended; <c>journal verify</c> must tell. Each alteration is
/// made at every record or segment of a journal of three segments, each with four commits of its own.
/// </summary>
public sealed class TamperEvidenceTests : IDisposable
{
    private const int Runs = 3;
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private string Segments => folder.At("journal");

    [Fact]
    public Task A_changed_record_is_found() =>
        EachRecord(
            (journal, segment, i) =>
            {
                segment.Records[i][^5] ^= 1;
                RawJournal.Seal(segment.Records[i]);
            }
        );

    [Fact]
    public Task A_removed_record_is_found() => EachRecord((journal, segment, i) => segment.Records.RemoveAt(i));

    [Fact]
    public Task A_doubled_record_is_found() =>
        EachRecord((journal, segment, i) => segment.Records.Insert(i, segment.Records[i]));

    [Fact]
    public Task An_inserted_record_is_found() =>
        EachRecord(
            (journal, segment, i) =>
            {
                // It follows on the one before in sequence and chain; what stood here comes after it.
                byte[] forged = [.. segment.Records[i]];
                forged[^5] ^= 1;
                RawJournal.Seal(forged);
                segment.Records.Insert(i, forged);
            }
        );

    [Fact]
    public Task Two_records_in_the_other_order_are_found() =>
        EachRecord(
            (journal, segment, i) =>
                (segment.Records[i], segment.Records[i - 1]) = (segment.Records[i - 1], segment.Records[i]),
            from: 1
        );

    [Fact]
    public Task A_whole_segment_that_was_removed_is_found() =>
        Each(Runs - 1, (journal, at) => journal.Segments.RemoveAt(at), alsoWithoutHead: _ => true);

    [Fact]
    public Task Two_segments_that_were_exchanged_are_found() =>
        Each(
            Runs - 1,
            (journal, at) =>
            {
                var (one, other) = (journal.Segments[at], journal.Segments[at + 1]);
                journal.Segments[at] = one with { Header = other.Header, Records = other.Records };
                journal.Segments[at + 1] = other with { Header = one.Header, Records = one.Records };
            },
            alsoWithoutHead: _ => true
        );

    [Fact]
    public async Task An_end_that_was_cut_off_is_found_against_a_head_kept_elsewhere()
    {
        var (head, whole) = await Made();
        // Every length of what is left, in whole records: nothing in the files tells that there was more.
        for (var left = whole - 1; left >= 0; left--)
        {
            await Verify(head, sound: false, () => Cut(left));
            Assert.True(await IsSound(), $"cut to {left} records: the files themselves are whole");
        }
    }

    [Fact]
    public async Task A_journal_written_anew_from_a_record_on_is_found_against_a_head_kept_elsewhere()
    {
        var (head, whole) = await Made();
        for (var at = 0; at < whole; at++)
        {
            var journal = RawJournal.Read(Segments);
            var (segment, i) = journal.Places.ElementAt(at);
            segment.Records[i][^5] ^= 1;
            await Verify(
                head,
                sound: false,
                () =>
                {
                    journal.ChainAnew();
                    journal.Write(Segments);
                }
            );
            Assert.True(await IsSound(), $"record {at} written anew: the files themselves are whole");
            await Made();
        }
    }

    private Task EachRecord(Action<RawJournal, RawSegment, int> alter, int from = 0) =>
        Each(
            null,
            (journal, at) =>
            {
                var (segment, i) = journal.Places.Where(place => place.Index >= from).ElementAt(at);
                alter(journal, segment, i);
            },
            // Nothing comes after the very last record that could vouch for it.
            alsoWithoutHead: isLast => !isLast,
            from
        );

    private async Task Each(int? count, Action<RawJournal, int> alter, Func<bool, bool> alsoWithoutHead, int from = 0)
    {
        var (head, _) = await Made();
        var sound = RawJournal.Read(Segments);
        var places = count ?? sound.Places.Count(place => place.Index >= from);
        for (var at = 0; at < places; at++)
        {
            var journal = RawJournal.Read(Segments);
            alter(journal, at);
            await Verify(head, sound: false, () => journal.Write(Segments));
            if (alsoWithoutHead(at == places - 1 && count is null))
            {
                Assert.False(await IsSound(), $"place {at}: found only against the head");
            }

            sound.Write(Segments);
        }

        await Verify(head, sound: true, () => { });
    }

    private void Cut(int left)
    {
        var journal = RawJournal.Read(Segments);
        while (journal.Segments.Sum(s => s.Records.Count) > left)
        {
            var last = journal.Segments[^1];
            if (last.Records.Count > 0)
            {
                last.Records.RemoveAt(last.Records.Count - 1);
            }

            if (last.Records.Count == 0 && journal.Segments.Count > 1)
            {
                journal.Segments.RemoveAt(journal.Segments.Count - 1);
            }
        }

        journal.Write(Segments);
    }

    private async Task Verify(string head, bool sound, Action alter)
    {
        alter();
        Assert.Equal(sound, await IsSound("--head", head));
    }

    /// <summary>What the command says of the journal; of the exam log it speaks apart.</summary>
    private async Task<bool> IsSound(params string[] words)
    {
        var outcome = await Invoked.Run(["journal", "verify", "--json", "--data", folder.Path, .. words]);
        using var document = JsonDocument.Parse(outcome.Out);
        var sound = document.RootElement.GetProperty("journal").GetProperty("isSound").GetBoolean();
        if (!sound)
        {
            Assert.Equal(ExitCode.Damaged, outcome.Code);
        }

        return sound;
    }

    /// <summary>A fresh journal; its head as the command prints it, and how many records it has.</summary>
    private async Task<(string Head, int Records)> Made()
    {
        if (Directory.Exists(Segments))
        {
            Directory.Delete(Segments, recursive: true);
        }

        for (var run = 0; run < Runs; run++)
        {
            var options = new JournalOptions
            {
                Folder = new JournalFolder(folder.Path),
                WriterInstance = new Guid(run, 0, 0, new byte[8]),
            };
            using var writer = JournalWriter.Open(RealDisk.Instance, options);
            for (var number = 1; number <= 3; number++)
            {
                writer.Append(Changed($"plugging {run}/{number}"));
                Assert.True(writer.Commit().IsDurable);
            }

            Assert.True(writer.StopCleanly().IsDurable);
        }

        var head = await Invoked.Run("journal", "head", "--json", "--data", folder.Path);
        using var document = JsonDocument.Parse(head.Out);
        return (document.RootElement.GetProperty("head").GetString()!, RawJournal.Read(Segments).Places.Count());
    }

    private static byte[] Changed(string reason) =>
        EntryCodec.Encode(
            new LineChanged
            {
                At = UtcTime.From(WrittenJournal.Morning),
                Serial = new SerialNumber("QA-7"),
                PortName = "/dev/quay",
                State = LineState.Connected,
                Reason = reason,
            }
        );
}
