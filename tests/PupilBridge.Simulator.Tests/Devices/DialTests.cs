using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.Devices;

public class DialTests
{
    private static readonly string[] WholeSequence =
    [
        "MODE,SEQUENCE,DIRECT,DIAL",
        "MODE,SEQUENCE,SWINGSHORT,SELF",
        "MODE,SEQUENCE,SWINGLONG,SELF",
    ];

    [Fact]
    public void The_models_have_different_dials_and_abilities()
    {
        var (a, b) = (InstrumentModels.QuayA, InstrumentModels.QuayB);
        Assert.NotEqual(a.Stops.Length, b.Stops.Length);
        Assert.NotEqual(a.Stops.Take(6).Select(s => (s.Mode, s.Block)), b.Stops.Select(s => (s.Mode, s.Block)));
        Assert.True(a.Can(InstrumentAbilities.MarkKeys) && a.Can(InstrumentAbilities.LightSensor));
        Assert.False(b.Can(InstrumentAbilities.MarkKeys) || b.Can(InstrumentAbilities.LightSensor));
        Assert.True(b.Can(InstrumentAbilities.LightSwitch));
        Assert.NotEqual(a.Scales.Right.Direction, b.Scales.Right.Direction);
    }

    [Fact]
    public void In_sequence_the_blocks_follow_each_other_with_their_trains()
    {
        var bench = new Bench(InstrumentModels.QuayB);
        bench.Run(1);
        bench.Turn(InstrumentMode.Sequence);
        bench.Run(80);
        Assert.Equal(WholeSequence, bench.Events.Where(e => e.StartsWith("MODE,SEQ", StringComparison.Ordinal)));
        Assert.Equal(
            Repeat("LAMP,R,ON,100", 3)
                .Concat(Repeat("LAMP,L,ON,100", 3))
                .Concat(Enumerable.Range(0, 16).Select(i => i % 2 == 0 ? "LAMP,R,ON,100" : "LAMP,L,ON,100")),
            bench.Events.Where(e => e.Contains(",ON,", StringComparison.Ordinal))
        );
        Assert.True(bench.Instrument.IsSequenceThrough);
    }

    [Fact]
    public void The_stimuli_last_as_long_as_their_block_says()
    {
        var bench = new Bench(InstrumentModels.QuayB);
        bench.Run(1);
        bench.Turn(InstrumentMode.Sequence);
        bench.Run(80);
        var lamps = bench.Host.Recorded.Where(r => r.Text.StartsWith("LAMP", StringComparison.Ordinal)).ToArray();
        var dwells = lamps.Chunk(2).Select(pair => pair[1].Tick - pair[0].Tick).ToArray();
        Assert.Equal(Repeat(1000L, 6 + 8).Concat(Repeat(3000L, 8)), dwells);
        var gaps = Enumerable.Range(1, 5).Select(i => lamps[2 * i].Tick - lamps[(2 * i) - 1].Tick);
        Assert.Equal(Repeat(3000L, 5), gaps);
    }

    [Fact]
    public void Quay_A_goes_on_to_the_near_block_without_a_lamp()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Turn(InstrumentMode.Sequence);
        bench.Run(100);
        Assert.Equal(
            [.. WholeSequence, "MODE,SEQUENCE,NEAR,SELF"],
            bench.Events.Where(e => e.Contains(",SEQ", StringComparison.Ordinal))
        );
        Assert.EndsWith("NEAR,SELF", bench.Events.Last());
    }

    [Fact]
    public void Hold_goes_on_until_the_dial_moves_and_the_lamp_goes_off_with_it()
    {
        var bench = new Bench(InstrumentModels.QuayB);
        bench.Run(1);
        bench.Turn(InstrumentMode.Hold, Block.SwingShort);
        bench.Run(31);
        Assert.True(bench.Instrument.ReachedCount);
        Assert.True(bench.Events.Count(e => e.Contains(",ON,", StringComparison.Ordinal)) > 20);
        Assert.NotNull(bench.Instrument.Lit);
        bench.Turn(InstrumentMode.Idle);
        bench.Run(5);
        Assert.Null(bench.Instrument.Lit);
        Assert.Equal(
            bench.Events.Count(e => e.Contains(",ON,", StringComparison.Ordinal)),
            bench.Events.Count(e => e.Contains(",OFF,", StringComparison.Ordinal))
        );
    }

    [Theory]
    [InlineData(20, "SWINGLONG")] // the held block reached its count: the next one
    [InlineData(5, "SWINGSHORT")] // it did not: the same again
    public void Back_from_hold_the_sequence_goes_on_by_what_was_reached(double held, string goesOnWith)
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Turn(InstrumentMode.Sequence);
        bench.Run(10);
        bench.Turn(InstrumentMode.Hold, Block.SwingShort);
        bench.Run(held);
        bench.Turn(InstrumentMode.Sequence);
        bench.Run(3);
        Assert.Equal(
            $"MODE,SEQUENCE,{goesOnWith},DIAL",
            bench.Events.Last(e => e.Contains("SEQ", StringComparison.Ordinal))
        );
    }

    [Fact]
    public void Stops_passed_on_the_way_are_told_but_light_nothing()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        bench.Turn(InstrumentMode.Hold, Block.Near);
        bench.Run(5);
        Assert.Equal(
            [
                "MODE,SEQUENCE,DIRECT,DIAL",
                "MODE,HOLD,DIRECT,DIAL",
                "MODE,HOLD,SWINGSHORT,DIAL",
                "MODE,HOLD,SWINGLONG,DIAL",
                "MODE,HOLD,NEAR,DIAL",
            ],
            bench.Events.Where(e => e.StartsWith("MODE", StringComparison.Ordinal)).Skip(1)
        );
        Assert.DoesNotContain(bench.Events, e => e.StartsWith("LAMP", StringComparison.Ordinal));
    }

    private static IEnumerable<T> Repeat<T>(T value, int times) => Enumerable.Repeat(value, times);
}
