using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Tests.Sessions;

public sealed class InstrumentSessionTests
{
    private static readonly BootNumber Boot = new(0xB007);

    private static void Rests(SessionBench bench, int count, double every = 0.1)
    {
        for (var i = 0; i < count; i++)
        {
            bench.Instrument.Rest(i % 2 == 0 ? Eye.Right : Eye.Left, 1000 + i, bench.At);
            bench.Run(every);
        }
    }

    [Fact]
    public void Meeting_an_instrument_is_recorded_word_for_word_and_shown()
    {
        var bench = new SessionBench().Connected();

        var met = Assert.Single(bench.Around.Recorded.OfType<InstrumentMet>());
        Assert.Equal("T-100", met.Serial.Value);
        Assert.Equal("port-1", met.PortName);
        Assert.StartsWith("ID,1,T-100,Quay-A,1.0,000000000000B007,", met.RawLines[0], StringComparison.Ordinal);
        Assert.Equal(5, met.RawLines.Count);
        Assert.Equal(LineState.Connected, Assert.Single(bench.Around.Recorded.OfType<LineChanged>()).State);
        Assert.Equal(PortPhase.Live, bench.Around.Phases[^1].Phase);
        Assert.True(bench.Around.Live!.IsConnected);
    }

    [Fact]
    public void Events_are_recorded_once_in_order_and_word_for_word()
    {
        var bench = new SessionBench().Connected();
        Rests(bench, 50);
        bench.Run(3);

        Assert.Equal(Enumerable.Range(1, 50).Select(n => (long)n), bench.Around.EventNumbers(Boot));
        var first = bench.Around.Recorded.OfType<InstrumentReported>().First();
        Assert.Matches(@"^EV,000000000000B007,1,\d+,REST,R,1000\*[0-9A-F]{8}$", first.RawLine);
        Assert.Equal(0, bench.Instrument.State.KeptCount);
        Assert.Equal(50, bench.Around.Live!.Recorded);
    }

    [Fact]
    public void Nothing_is_acknowledged_that_is_not_on_disk_and_then_all_of_it_at_once()
    {
        var bench = new SessionBench().Connected();
        bench.DiskTakes = 0;
        Rests(bench, 10);
        bench.Run(30);
        Assert.Equal(0, bench.Around.AckSent);
        Assert.Equal(10, bench.Instrument.State.KeptCount);
        Assert.Equal(10, bench.Around.Live!.Received);
        Assert.Equal(0, bench.Around.Live!.Recorded);

        bench.Around.Sent.Clear();
        bench.DiskTakes = int.MaxValue;
        bench.Run(0.04);
        Assert.StartsWith(
            "ACK,A1B2C3D4,000000000000B007,10*",
            Assert.Single(bench.Around.Sent),
            StringComparison.Ordinal
        );
        Assert.Equal(0, bench.Instrument.State.KeptCount);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void A_bad_line_costs_time_and_no_event(int seed)
    {
        var random = new Random(seed);
        var bench = new SessionBench().Connected();
        bench.ToHost = bytes => Spoil(bytes, random);
        bench.ToInstrument = bytes => Spoil(bytes, random);
        Rests(bench, 200, every: 0.2);
        bench.ToHost = bench.ToInstrument = bytes => bytes;
        if (bench.Around.Ending is not null)
            bench.Reopen();
        bench.RunUntil(() => bench.Instrument.State.KeptCount == 0 && bench.Session.IsConnected);

        Assert.Equal(Enumerable.Range(1, 200).Select(n => (long)n), bench.Around.EventNumbers(Boot));
        Assert.True(bench.Session.Counters.BadCheck > 0);
    }

    /// <summary>Flips, drops and doubles about one byte in a thousand.</summary>
    private static byte[] Spoil(byte[] bytes, Random random)
    {
        var spoilt = new List<byte>(bytes.Length);
        foreach (var b in bytes)
        {
            var chance = random.Next(3000);
            if (chance != 0)
                spoilt.Add(chance == 1 ? (byte)(b ^ (1 << random.Next(8))) : b);
            if (chance == 2)
                spoilt.Add(b);
        }

        return [.. spoilt];
    }

    [Fact]
    public void Events_that_are_on_their_way_to_the_disk_when_the_line_is_lost_are_neither_doubled_nor_acknowledged_early()
    {
        var bench = new SessionBench().Connected();
        bench.DiskTakes = 0;
        Rests(bench, 5);
        bench.Reopen();
        bench.Run(5);
        Assert.False(bench.Session.IsConnected);
        Assert.Contains("earlier events", bench.Around.Phases[^1].Message, StringComparison.Ordinal);
        Assert.Equal(5, bench.Instrument.State.KeptCount);

        bench.DiskTakes = int.MaxValue;
        Rests(bench, 2);
        bench.RunUntil(() => bench.Instrument.State.KeptCount == 0);
        Assert.Equal([1, 2, 3, 4, 5, 6, 7], bench.Around.EventNumbers(Boot));
    }

    [Fact]
    public void A_disk_that_does_not_keep_up_makes_events_come_again_and_the_line_stays_up()
    {
        var bench = new SessionBench(waitingLimit: 8).Connected();
        bench.DiskTakes = 0;
        Rests(bench, 40);
        bench.Run(30);
        Assert.True(bench.Session.IsConnected);
        Assert.True(bench.Session.PassedOver > 0);
        Assert.InRange(bench.Around.Waiting, 8, 12);

        bench.DiskTakes = int.MaxValue;
        bench.RunUntil(() => bench.Instrument.State.KeptCount == 0);
        Assert.Equal(Enumerable.Range(1, 40).Select(n => (long)n), bench.Around.EventNumbers(Boot));
    }

    [Fact]
    public void A_reboot_in_the_middle_ends_the_boot_with_an_open_gap_once()
    {
        var bench = new SessionBench().Connected();
        Rests(bench, 3);
        bench.Instrument.CutPower(bench.At);
        bench.Instrument.SwitchOn(0xB008, bench.At);
        bench.Run(4);
        Rests(bench, 2);
        bench.Run(2);
        bench.Reopen();
        bench.Run(4);

        var lost = Assert.Single(bench.Around.Recorded.OfType<EventsLost>());
        Assert.Equal((Boot, 4L, null, LossCause.BootEnded), (lost.Boot, lost.First, lost.Last, lost.Cause));
        Assert.Equal([1, 2], bench.Around.EventNumbers(new BootNumber(0xB008)));
    }

    [Fact]
    public void A_boot_that_ended_while_the_line_was_down_is_ended_once_and_not_after_switching_off()
    {
        var bench = new SessionBench().Connected();
        Rests(bench, 3);
        bench.Instrument.CutPower(bench.At);
        bench.Session.OnClosed("unplugged", bench.Now);
        bench.Instrument.SwitchOn(0xB008, bench.At);
        bench.Reopen();
        bench.Run(4);
        bench.Instrument.Say(
            new InstrumentEvent { Tick = bench.Instrument.TickAt(bench.At), Kind = InstrumentEventKind.SwitchedOff },
            bench.At
        );
        bench.Run(4);
        bench.Instrument.SwitchOn(0xB009, bench.At);
        bench.Reopen();
        bench.Run(4);

        Assert.Equal([Boot], bench.Around.Recorded.OfType<EventsLost>().Select(lost => lost.Boot));
        Assert.Equal([1], bench.Around.EventNumbers(new BootNumber(0xB008)));
    }

    [Fact]
    public void A_memory_that_overflowed_stands_in_the_journal_as_a_counted_gap()
    {
        var bench = new SessionBench(new TestInstrument(kept: 8)).Connected();
        bench.Session.OnClosed("unplugged", bench.Now);
        for (var i = 0; i < 20; i++)
            bench.Instrument.Rest(Eye.Right, 1000 + i, bench.At);
        bench.Reopen();
        bench.RunUntil(() => bench.Instrument.State.KeptCount == 0);

        var lost = Assert.Single(bench.Around.Recorded.OfType<EventsLost>());
        Assert.Equal(LossCause.MemoryOverflow, lost.Cause);
        Assert.Equal(1, lost.First);
        Assert.Equal(
            Enumerable.Range((int)lost.Last! + 1, 20 - (int)lost.Last).Select(n => (long)n),
            bench.Around.EventNumbers(Boot)
        );
    }
}
