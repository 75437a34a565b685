using Microsoft.Extensions.Time.Testing;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Ports;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Tests.Lines;

/// <summary>An instrument's link, a line in memory, the worker's lines and a real journal, end to end.</summary>
public sealed class LinesEndToEndTests
{
    private static IEnumerable<JournalEntry> Read(LineBench bench)
    {
        using var reader = JournalReader.Live(
            bench.Disk,
            new JournalFolder(bench.Around.Options.DataFolder),
            1,
            () => bench.Around.Keeper.Durable.Sequence
        );
        return
        [
            .. reader.ReadAll().Where(r => r.Class == RecordClass.Entry).Select(r => EntryCodec.Decode(r.Payload.Span)),
        ];
    }

    private static IEnumerable<long> Numbers(LineBench bench, string serial = "T-100") =>
        Read(bench).OfType<InstrumentReported>().Where(e => e.Serial.Value == serial).Select(e => e.Sequence);

    private static async Task Live(LineBench bench, MemoryLine line) =>
        await Eventually.Is(
            () => bench.Status(line.Name).Phase == PortPhase.Live,
            () => bench.Status(line.Name).ToString()
        );

    private static IEnumerable<long> Upto(int last) => Enumerable.Range(1, last).Select(n => (long)n);

    [Fact]
    public async Task Events_reach_the_journal_and_are_acknowledged_across_unplugging_and_replugging()
    {
        using var bench = new LineBench();
        var line = new MemoryLine("port-1", TimeProvider.System);
        await using var instrument = new LiveTestInstrument(line, TimeProvider.System).Start();
        bench.Serve(line.Host);
        await Live(bench, line);
        for (var i = 0; i < 100; i++)
        {
            instrument.Rest(Eye.Right, 1000 + i);
            if (i % 25 == 10)
            {
                line.Unplug();
                await Eventually.Is(() => bench.Status(line.Name).Phase != PortPhase.Live);
                instrument.Rest(Eye.Left, 2000 + i);
                line.Replug();
                await Live(bench, line);
            }
        }

        await Eventually.Is(() => instrument.Kept == 0, () => $"kept {instrument.Kept}");
        Assert.Equal(Upto(104), Numbers(bench));
        Assert.Equal(4, Read(bench).OfType<LineChanged>().Count(e => e.State == LineState.Lost));
    }

    [Fact]
    public async Task Several_instruments_are_served_at_once_each_in_its_order()
    {
        using var bench = new LineBench();
        var lines = Enumerable.Range(1, 4).Select(n => new MemoryLine($"port-{n}", TimeProvider.System)).ToList();
        var instruments = lines
            .Select((line, n) => new LiveTestInstrument(line, TimeProvider.System, $"T-{n}").Start())
            .ToList();
        foreach (var line in lines)
            bench.Serve(line.Host);
        foreach (var line in lines)
            await Live(bench, line);
        for (var i = 0; i < 200; i++)
            instruments[i % 4].Rest(Eye.Right, 1000 + i);
        await Eventually.Is(() => instruments.TrueForAll(i => i.Kept == 0));

        Assert.All(Enumerable.Range(0, 4), n => Assert.Equal(Upto(50), Numbers(bench, $"T-{n}")));
        foreach (var instrument in instruments)
            await instrument.DisposeAsync();
    }

    [Fact]
    public async Task Of_two_ports_with_one_serial_number_the_second_is_refused_and_comes_on_when_the_first_goes()
    {
        using var bench = new LineBench();
        var first = new MemoryLine("port-1", TimeProvider.System);
        var second = new MemoryLine("port-2", TimeProvider.System);
        await using var instrument = new LiveTestInstrument(first, TimeProvider.System).Start(1);
        await using var copy = new LiveTestInstrument(second, TimeProvider.System).Start(2);
        bench.Serve(first.Host);
        await Live(bench, first);
        copy.Rest(Eye.Left, 9999);
        bench.Serve(second.Host);
        await Eventually.Is(() => bench.Status(second.Name).Phase == PortPhase.WrongInstrument);
        Assert.Contains(
            "claims the serial number T-100, which is live on memory:port-1",
            bench.Status(second.Name).Message,
            StringComparison.Ordinal
        );
        instrument.Rest(Eye.Right, 1000);
        await Eventually.Is(() => instrument.Kept == 0);
        Assert.Equal(new BootNumber(1), Assert.Single(Read(bench).OfType<InstrumentReported>()).Boot);
        await Eventually.Is(() =>
            Read(bench).OfType<LineChanged>().Any(e => e.Reason.Contains("claims", StringComparison.Ordinal))
        );
        Assert.Equal(1, copy.Kept);

        first.Unplug();
        await Eventually.Is(() => copy.Kept == 0, () => bench.Status(second.Name).ToString());
        Assert.Equal(
            [new BootNumber(1), new BootNumber(2)],
            Read(bench).OfType<InstrumentReported>().Select(e => e.Boot)
        );
    }

    [Fact]
    public async Task With_a_full_disk_nothing_is_acknowledged_nothing_is_lost_and_the_line_stays_up()
    {
        using var bench = new LineBench();
        var line = new MemoryLine("port-1", TimeProvider.System);
        await using var instrument = new LiveTestInstrument(line, TimeProvider.System).Start();
        bench.Serve(line.Host);
        await Live(bench, line);
        instrument.Rest(Eye.Right, 1000);
        await Eventually.Is(() => instrument.Kept == 0);

        bench.Disk.IsFull = true;
        for (var i = 0; i < 20; i++)
            instrument.Rest(Eye.Left, 1000 + i);
        await Eventually.Is(() => bench.Around.Keeper.Trouble is not null && bench.Disk.Failures > 2);
        Assert.Contains("is full", bench.Around.Keeper.Trouble, StringComparison.Ordinal);
        Assert.Equal(20, instrument.Kept);
        Assert.Equal(PortPhase.Live, bench.Status(line.Name).Phase);
        Assert.Equal(Upto(1), Numbers(bench));

        bench.Disk.IsFull = false;
        await Eventually.Is(() => instrument.Kept == 0);
        Assert.Equal(Upto(21), Numbers(bench));
        Assert.Null(bench.Around.Keeper.Trouble);
    }

    [Fact]
    public async Task A_line_that_goes_quiet_is_closed_after_three_seconds_and_opened_anew()
    {
        var time = new FakeTimeProvider();
        using var bench = new LineBench(time);
        var line = new MemoryLine("port-1", time);
        var instrument = new LiveTestInstrument(line, time).Start();
        var supervisor = bench.Serve(line.Host);
        await Eventually.Is(() =>
        {
            time.Advance(TimeSpan.FromMilliseconds(100));
            return bench.Status(line.Name).Phase == PortPhase.Live;
        });

        // The instrument stops; the cable stays in and the port stays open.
        instrument.Do((i, at) => i.CutPower(at));
        var quietFrom = time.GetUtcNow();
        await Eventually.Is(() =>
        {
            time.Advance(TimeSpan.FromMilliseconds(50));
            return supervisor.Opened > 1 || bench.Status(line.Name).Phase == PortPhase.Silent;
        });
        var quiet = time.GetUtcNow() - quietFrom;
        Assert.InRange(quiet.TotalSeconds, 2, 3.6);
        await Eventually.Is(() => Read(bench).OfType<LineChanged>().Any(e => e.State == LineState.Stalled));

        instrument.Do((i, at) => i.SwitchOn(5, at));
        await Eventually.Is(() =>
        {
            time.Advance(TimeSpan.FromMilliseconds(100));
            return bench.Status(line.Name).Phase == PortPhase.Live;
        });
        await instrument.DisposeAsync();
    }
}
