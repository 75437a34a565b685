using Microsoft.Extensions.Options;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests;

public sealed class BridgeTests
{
    [Fact]
    public async Task An_exam_goes_from_the_wire_through_the_journal_into_the_exam_log()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var id = await bench.ExamineAsync("Q-1001");
        var exam = await bench.WrittenAsync(id);

        Assert.Equal("Q-1001", exam.Patient!.Value.Value);
        Assert.Equal([4000, 4200], exam.Captures.Select(c => c.Raw.Value).Order());
        Assert.Equal(exam, bench.Bridge.Exams.Find(id));
        var stored = bench.Bridge.ExamLog.Read(log => log.ListExams(new ExamLog.ExamQuery())).Items;
        Assert.Equal(("ready-for-review", "MK"), (Assert.Single(stored).Status, stored[0].Examiner));
        Assert.NotEmpty(stored[0].ChartLine);
        Assert.Equal("T-100", Assert.Single(bench.Bridge.ExamLog.Read(log => log.ListInstruments())).Id);
    }

    [Fact]
    public async Task Screens_get_a_snapshot_and_then_what_is_recorded_in_order()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var (snapshot, changes) = bench.Bridge.Board.Watch();
        using (changes)
        {
            Assert.Equal("T-100", Assert.Single(snapshot.Instruments).Serial.Value);
            await bench.ExamineAsync("Q-1001");
            var recorded = new List<SequencedEntry>();
            using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(30));
            await foreach (var change in changes.ReadAllAsync(limit.Token))
            {
                if (change is LiveChange.EntryRecorded entry)
                    recorded.Add(entry.Entry);
                if (change is LiveChange.ExamChanged { IsOver: true })
                    break;
            }

            Assert.Equal(recorded.OrderBy(e => e.Sequence.Value), recorded);
            Assert.Equal(5, recorded.Count(e => e.Entry is InstrumentReported));
        }
    }

    [Fact]
    public async Task After_a_restart_everything_is_there_and_nothing_is_double()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var id = await bench.ExamineAsync("Q-1001");
        var before = await bench.WrittenAsync(id);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        bench.Open();
        await bench.Live();

        Assert.Equal(before, bench.Find(id));
        Assert.Equal(0, bench.Bridge.ExamLog.Rebuilds);
        bench.Instrument.Rest(Eye.Right, 1234);
        await Eventually.Is(() => bench.Instrument.Kept == 0);
        Assert.Equal(Enumerable.Range(1, 6).Select(n => (long)n), Numbers(bench));
    }

    [Fact]
    public async Task A_bridge_that_died_goes_on_where_it_was()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var id = await bench.ExamineAsync("Q-1001");
        // The disk is gone from one moment to the next, and so is the process: nothing more is written or closed in order.
        bench.Disk.IsFull = true;
        await bench.Bridge.DisposeAsync();
        bench.Disk.IsFull = false;
        bench.Open();
        await bench.Live();
        await bench.WrittenAsync(id);
        Assert.Equal(Enumerable.Range(1, 5).Select(n => (long)n), Numbers(bench));
    }

    [Fact]
    public async Task A_second_bridge_on_the_same_data_is_refused_with_a_message()
    {
        await using var bench = new BridgeBench();
        var first = bench.Bridge;
        var refused = Assert.Throws<JournalLockedException>(bench.Open);
        Assert.Contains(bench.DataFolder, refused.Message, StringComparison.Ordinal);
        Assert.Same(first, bench.Bridge);
    }

    [Fact]
    public async Task The_start_stands_in_the_journal_with_version_host_and_profile()
    {
        await using var bench = new BridgeBench();
        var host = bench.Bridge.Host;
        await bench.Bridge.DisposeAsync();
        bench.Open();
        Assert.Equal(host, bench.Bridge.Host);
        await Eventually.Is(() => Entries(bench).OfType<ProfileInForce>().Count() == 2);
        Assert.All(Entries(bench).OfType<ServiceStarted>(), started => Assert.Equal(host, started.Host));
    }

    [Fact]
    public async Task Stopping_ends_and_is_clean()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        // A part that does not end is left behind after its share of two seconds, and then the stop is not clean.
        Assert.True(await bench.Bridge.StopAsync());
        Assert.False(bench.Line.HasHost);
    }

    [Fact]
    public async Task Commands_get_numbers_of_their_own_and_always_end()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var serial = new SerialNumber("T-100");
        var endings = await Task.WhenAll(
                Enumerable
                    .Range(0, 3)
                    .Select(_ => Task.Run(() => bench.Bridge.CommandAsync(serial, InstrumentCommand.Off, null)))
            )
            .WaitAsync(TimeSpan.FromSeconds(60));
        Assert.Equal([1u, 2u, 3u], endings.Select(ending => ending.Number).Order());
        // The instrument never carries the first one out: it does not answer that one, and is busy for the others.
        Assert.All(
            endings,
            ending => Assert.Contains(ending.Outcome, new[] { CommandOutcome.NoReply, CommandOutcome.Busy })
        );
        Assert.Equal([1L, 2L, 3L], Entries(bench).OfType<CommandWished>().Select(wished => wished.Number).Order());

        var nobody = await bench.Bridge.CommandAsync(new SerialNumber("T-999"), InstrumentCommand.Off, null);
        Assert.Equal("The instrument is not connected.", nobody.Reason);
    }

    [Fact]
    public void Wrong_options_end_the_start_with_all_faults()
    {
        using var folder = new TempFolder();
        var profile = Path.Combine(folder.Path, "profile.json");
        File.WriteAllText(profile, "{ \"Name\": 5 }");
        var options = new BridgeOptions { Baud = 1, ProfileFile = profile };
        var refused = Assert.Throws<OptionsValidationException>(() =>
            Bridge.Open(new BridgeParts { Options = options })
        );
        Assert.Contains(refused.Failures, f => f.StartsWith("Bridge:Baud is '1'", StringComparison.Ordinal));
        Assert.Contains(refused.Failures, f => f.StartsWith("Bridge:DataFolder", StringComparison.Ordinal));
        Assert.Contains(refused.Failures, f => f.Contains("cannot be read as a profile", StringComparison.Ordinal));
    }

    [Fact]
    public void A_profile_that_cannot_be_worked_by_ends_the_start_with_each_fault()
    {
        using var folder = new TempFolder();
        var file = Path.Combine(folder.Path, "profile.json");
        var profile = Profile.Default with
        {
            Version = 0,
            Legend = GradeLegend.Default with { Grades = ["a", "b", "c", "d", "e"] },
        };
        File.WriteAllBytes(file, System.Text.Json.JsonSerializer.SerializeToUtf8Bytes(profile));
        var options = new BridgeOptions { DataFolder = folder.Path, ProfileFile = file };
        var refused = Assert.Throws<OptionsValidationException>(() =>
            Bridge.Open(new BridgeParts { Options = options })
        );
        Assert.Equal(2, refused.Failures.Count());
        Assert.All(refused.Failures, f => Assert.StartsWith($"The profile {file}: ", f, StringComparison.Ordinal));
        Assert.Contains(refused.Failures, f => f.Contains("Version is 0; it must be 1", StringComparison.Ordinal));
    }

    [Fact]
    public void A_host_number_that_was_tampered_with_is_named()
    {
        using var folder = new TempFolder();
        File.WriteAllText(Path.Combine(folder.Path, "host-id"), "hello");
        var options = new BridgeOptions { DataFolder = folder.Path };
        var refused = Assert.Throws<BridgeStartException>(() => Bridge.Open(new BridgeParts { Options = options }));
        Assert.Contains("'hello'", refused.Message, StringComparison.Ordinal);
    }

    internal static IEnumerable<JournalEntry> Entries(BridgeBench bench)
    {
        using var reader = JournalReader.Live(
            bench.Disk,
            new JournalFolder(bench.DataFolder),
            1,
            () => bench.Bridge.Keeper.Durable.Sequence
        );
        return
        [
            .. reader
                .ReadAll()
                .Where(r => r.Class == RecordClass.Entry)
                .Select(r => PupilBridge.Exams.Entries.Codec.EntryCodec.Decode(r.Payload.Span)),
        ];
    }

    private static IEnumerable<long> Numbers(BridgeBench bench) =>
        Entries(bench).OfType<InstrumentReported>().Select(e => e.Sequence);
}
