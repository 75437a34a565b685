using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.Devices;

public class ScaleTests
{
    [Fact]
    public void A_scale_that_comes_to_rest_tells_where_in_steps_of_its_resolution()
    {
        var bench = new Bench(InstrumentModels.QuayB);
        bench.Run(1);
        bench.Instrument.SlideTo(Eye.Left, 12_345, 6_000);
        bench.Run(3);
        Assert.Equal(["REST,L,12350"], Rests(bench));
    }

    [Fact]
    public void While_it_moves_it_tells_at_most_25_positions_a_second()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Instrument.SlideTo(Eye.Right, 12_000, 2_000);
        bench.Run(10);
        var ticks = bench
            .Host.Lines.Where(l => l.StartsWith("POS,R", StringComparison.Ordinal))
            .Select(l => long.Parse(l.Split(',')[3], null))
            .ToArray();
        Assert.InRange(ticks.Length, 60, 126);
        Assert.All(ticks.Zip(ticks.Skip(1)), p => Assert.True(p.Second - p.First >= 40));
    }

    [Fact]
    public void It_stops_at_its_ends()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Instrument.SlideTo(Eye.Right, 99_000, 60_000);
        bench.Run(2);
        Assert.Equal(["REST,R,30000"], Rests(bench));
    }

    [Fact]
    public void A_stuck_scale_stays_and_tells_nothing_new_after_it_came_to_rest()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Instrument.SlideTo(Eye.Right, 12_000, 2_000);
        bench.Run(1);
        bench.Instrument.StickScale(Eye.Right, isStuck: true);
        bench.Run(3);
        var at = bench.Instrument.ScalePosition(Eye.Right);
        Assert.InRange(at.Value, 3_000, 5_000);
        Assert.Equal([$"REST,R,{at.Value}"], Rests(bench));
        bench.Instrument.SlideTo(Eye.Right, 20_000, 5_000);
        bench.Run(3);
        Assert.Equal(at, bench.Instrument.ScalePosition(Eye.Right));
        bench.Instrument.StickScale(Eye.Right, isStuck: false);
        bench.Instrument.SlideTo(Eye.Right, 20_000, 5_000);
        bench.Run(5);
        Assert.Equal("REST,R,20000", Rests(bench).Last());
    }

    [Fact]
    public void Mark_keys_tell_the_position_where_there_are_such_keys()
    {
        var (a, b) = (new Bench(InstrumentModels.QuayA), new Bench(InstrumentModels.QuayB));
        foreach (var bench in new[] { a, b })
        {
            bench.Run(1);
            bench.Instrument.PressMark(Eye.Right, PupilEdge.Temporal);
            bench.Run(1);
        }

        Assert.Contains("EDGE,R,T,2000", a.Events);
        Assert.DoesNotContain(b.Events, e => e.StartsWith("EDGE", StringComparison.Ordinal));
    }

    private static IEnumerable<string> Rests(Bench bench) =>
        bench.Events.Where(e => e.StartsWith("REST", StringComparison.Ordinal));
}
