using PupilBridge.Simulator.CommandLine;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.CommandLine;

/// <summary>What hands do at a served instrument, in words.</summary>
public class HandLinesTests
{
    [Theory]
    [InlineData("dial measure", "MODE,MEASURE,-,DIAL")]
    [InlineData("dial hold swing-short", "MODE,HOLD,SWINGSHORT,DIAL")]
    [InlineData("slide L 9000", "REST,L,9000")]
    [InlineData("mark R T", "EDGE,R,T,2000")]
    [InlineData("room 2.5", "ROOM,LUX,2500")]
    [InlineData("fix near", "FIX,NEAR")]
    [InlineData("off", "OFF")]
    public void Each_makes_the_instrument_tell_what_happened(string line, string told)
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        Assert.True(HandLines.Do(bench.Instrument, line.Split(' ')));
        bench.Run(4);
        Assert.Contains(told, bench.Events);
    }

    [Fact]
    public void Keys_are_pressed_as_often_as_asked()
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        Assert.True(HandLines.Do(bench.Instrument, ["keys", "30"]));
        bench.Run(3);
        Assert.Equal(30, bench.Events.Count(e => e == "EDGE,R,N,2000"));
    }

    [Theory]
    [InlineData("dial")]
    [InlineData("dial hold")]
    [InlineData("dial measure near")]
    [InlineData("slide X 100")]
    [InlineData("slide R far")]
    [InlineData("slide R -5")]
    [InlineData("mark R X")]
    [InlineData("lens")]
    [InlineData("jump")]
    public void What_is_not_understood_does_nothing(string line)
    {
        var bench = new Bench(InstrumentModels.QuayA);
        bench.Run(1);
        var before = bench.Instrument.Truth.Events.Count;
        Assert.False(HandLines.Do(bench.Instrument, line.Split(' ')));
        bench.Run(1);
        Assert.Equal(before, bench.Instrument.Truth.Events.Count);
    }
}
