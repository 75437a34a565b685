using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.Devices;

public class SimulatedInstrumentTests
{
    [Fact]
    public void It_says_who_it_is()
    {
        var bench = new Bench(InstrumentModels.QuayB);
        bench.Run(1);
        var id = bench.Host.Lines.First(l => l.StartsWith("ID", StringComparison.Ordinal)).Split(',');
        Assert.Equal(["ID", "1", "QA-0042", "Quay-B", "2.0.3"], id[..5]);
        Assert.Equal("FGSV", new string([.. id[6].Order()]));
        Assert.Equal("6", id[7]);
        Assert.Equal(6, bench.Host.Lines.Count(l => l.StartsWith("STOP", StringComparison.Ordinal)));
        Assert.Contains("SCALE,R,16000,IN,50,500,18000", bench.Host.Lines);
    }

    [Fact]
    public void The_oracle_equals_what_the_line_carried()
    {
        foreach (var model in InstrumentModels.All)
        {
            var bench = new Bench(model);
            bench.Run(1);
            bench.Turn(InstrumentMode.Sequence);
            bench.Instrument.SetRoom(2);
            bench.Instrument.MoveLens(true);
            bench.Instrument.Fixate(near: true);
            bench.Instrument.SlideTo(Eye.Right, 9_000, 4_000);
            bench.Instrument.TellUnknown("TILT,12,SPARE");
            bench.Run(40);
            bench.Instrument.SwitchOff();
            bench.Run(1);
            OracleCheck.Holds(bench.Instrument.Truth, bench.Host);
            Assert.Empty(bench.Instrument.Truth.Losses);
            Assert.Equal("OFF", bench.Events.Last());
            Assert.Equal(PowerState.Off, bench.Instrument.Power);
        }
    }

    [Fact]
    public void Events_are_kept_until_they_are_acknowledged_and_sent_again()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Host.Acknowledges = false;
        bench.Run(1);
        bench.Instrument.SetRoom(2);
        bench.Run(6);
        var sent = bench.Host.Lines.Count(l => l.EndsWith("ROOM,LUX,2000", StringComparison.Ordinal));
        Assert.InRange(sent, 3, 4);
        Assert.False(bench.Instrument.IsAllAcknowledged);
        bench.Host.Acknowledges = true;
        bench.Run(3);
        Assert.True(bench.Instrument.IsAllAcknowledged);
        OracleCheck.Holds(bench.Instrument.Truth, bench.Host);
    }

    [Fact]
    public void A_full_memory_drops_the_oldest_and_says_so()
    {
        var bench = new Bench(InstrumentModels.QuayA, options: new InstrumentOptions { KeptCapacity = 10 });
        bench.Run(1);
        bench.Line.Unplug();
        bench.Instrument.ChatterRoom(30);
        bench.Run(1);
        bench.Line.Replug();
        bench.Host.Reopen();
        bench.Run(3);
        var loss = Assert.Single(bench.Instrument.Truth.Losses);
        var gap = Assert.Single(bench.Host.Recorded, r => r.Text.StartsWith("GAP", StringComparison.Ordinal));
        Assert.Equal((loss.First, loss.Last), (gap.First, gap.Last));

        // Three events before; of thirty, nine are kept beside the gap.
        Assert.Equal((4, 24), (loss.First, loss.Last));
        Assert.Equal("memory overflow", loss.Cause);
        OracleCheck.Holds(bench.Instrument.Truth, bench.Host);
    }

    [Fact]
    public void A_reboot_is_a_new_boot_whose_ticks_and_numbers_begin_anew()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(5);
        bench.Host.Acknowledges = false;
        bench.Instrument.SetRoom(2);
        bench.Run(0.1);
        bench.Instrument.Reboot();
        bench.Host.Acknowledges = true;
        bench.Run(5);
        Assert.Equal(2, bench.Instrument.Truth.Boots.Distinct().Count());
        var second = bench.Instrument.Truth.Boots[1].ToString();
        var first = bench.Host.Recorded.First(r => r.Boot == second);
        Assert.Equal((1, 0), (first.First, first.Tick));
        var loss = Assert.Single(bench.Instrument.Truth.Losses);
        Assert.Equal((bench.Instrument.Truth.Boots[0], 4, 4), (loss.Boot, loss.First, loss.Last));
    }

    [Fact]
    public void Switching_off_waits_at_most_two_seconds_for_the_acknowledgement()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Line.Unplug();
        bench.Instrument.SwitchOff();
        bench.Run(1.5);
        Assert.Equal(PowerState.GoingOff, bench.Instrument.Power);
        bench.Run(1);
        Assert.Equal(PowerState.Off, bench.Instrument.Power);
        Assert.Single(bench.Instrument.Truth.Losses);
    }

    [Fact]
    public void It_switches_itself_off_by_command_where_it_can()
    {
        var (a, b) = (new Bench(InstrumentModels.QuayA), new Bench(InstrumentModels.QuayB));
        foreach (var bench in new[] { a, b })
        {
            bench.Run(1);
            bench.Host.Command(1, "OFF");
            bench.Run(1);
        }

        Assert.Equal(PowerState.Off, a.Instrument.Power);
        Assert.Contains("DONE,0000BEEF,1,OK", a.Host.Lines.Select(l => l.TrimEnd(',')));
        Assert.Equal(PowerState.On, b.Instrument.Power);
        Assert.Contains("DONE,0000BEEF,1,UNKNOWN", b.Host.Lines.Select(l => l.TrimEnd(',')));
    }

    [Fact]
    public void It_takes_a_train_in_idle_only()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Host.Command(1, "TRAIN,SWINGSHORT,2,500,100");
        bench.Run(1);
        bench.Turn(InstrumentMode.Hold, Block.SwingShort);
        bench.Run(1);
        bench.Host.Command(2, "TRAIN,DIRECT,2,500,100");
        bench.Run(5);
        Assert.Contains("DONE,0000BEEF,1,OK", bench.Host.Lines.Select(l => l.TrimEnd(',')));
        Assert.Contains("DONE,0000BEEF,2,REFUSED,turn the dial to idle first", bench.Host.Lines);
        var lamps = bench.Host.Recorded.Where(r => r.Text.StartsWith("LAMP", StringComparison.Ordinal)).ToArray();
        Assert.Equal([500, 100, 500], lamps.Take(4).Zip(lamps.Skip(1), (one, next) => next.Tick - one.Tick).Take(3));
    }

    [Fact]
    public void Its_clock_can_run_fast()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Instrument.DriftPartsPerMillion = 10_000;
        bench.Run(100);
        var last = bench.Host.Lines.Last(l => l.StartsWith("BEAT", StringComparison.Ordinal)).Split(',');
        Assert.InRange(long.Parse(last[2], null), 99_000 * 1.01, 100_000 * 1.01);
    }

    [Fact]
    public void The_same_seed_gives_the_same_boot_number()
    {
        var (one, two) = (new Bench(InstrumentModels.QuayA), new Bench(InstrumentModels.QuayA));
        Assert.Equal(one.Instrument.Truth.Boots, two.Instrument.Truth.Boots);
    }

    [Fact]
    public void A_command_and_hands_do_nothing_while_it_is_off()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Instrument.SwitchOff();
        bench.Run(1);
        var before = bench.Instrument.Truth.Events.Count;
        bench.Instrument.SetRoom(5);
        bench.Instrument.PressMark(Eye.Left, PupilEdge.Nasal);
        bench.Instrument.TellUnknown("TILT,1,SPARE");
        bench.Run(5);
        Assert.Equal(before, bench.Instrument.Truth.Events.Count);
        bench.Instrument.SwitchOn();
        bench.Run(1);
        Assert.Equal("ROOM,LUX,5000", bench.Instrument.Truth.Events[before + 1].Text);
    }
}
