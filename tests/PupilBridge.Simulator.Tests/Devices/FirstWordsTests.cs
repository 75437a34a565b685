using System.Globalization;
using System.Text;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.Tests.Devices;

/// <summary>What a simulated instrument says of itself, and answers to what it cannot do (docs/protocol.md, 6.4 and 15).</summary>
public class FirstWordsTests
{
    [Theory]
    [InlineData("Quay-A", "86")]
    [InlineData("Quay-B", "-")]
    public void Its_first_heartbeat_tells_the_charge_where_there_is_a_battery(string model, string charge)
    {
        var instrument = On(model);
        var first = Lines(instrument.Collect(TimeSpan.Zero))[0];
        Assert.Equal(["BEAT", .. first.Split(',')[1..5], charge], first.Split(','));
        instrument.Reboot();
        var anew = Lines(instrument.Collect(TimeSpan.FromSeconds(0.01)))[0];
        Assert.EndsWith("," + charge, anew, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Quay-A", "TRAIN,DIRECT,0,1000,1000", "REFUSED,fields out of range")]
    [InlineData("Quay-A", "TRAIN,DIRECT", "REFUSED,fields out of range")]
    [InlineData("Quay-A", "TRAIN,DIRECT,3,1000,3000", "OK")]
    [InlineData("Quay-B", "TRAIN,DIRECT,0,1000,1000", "UNKNOWN")]
    [InlineData("Quay-B", "TRAIN,DIRECT", "UNKNOWN")]
    [InlineData("Quay-B", "TRAIN,DIRECT,3,1000,3000", "UNKNOWN")]
    public void The_fields_of_a_train_count_only_where_trains_are_taken(string model, string command, string answer)
    {
        var instrument = On(model);
        Say(instrument, "WHO,00C0FFEE,1,1");
        instrument.Collect(TimeSpan.FromSeconds(0.1));
        Say(instrument, "CMD,00C0FFEE,7," + command);
        Assert.Contains("DONE,00C0FFEE,7," + answer, Lines(instrument.Collect(TimeSpan.FromSeconds(0.2))));
    }

    [Fact]
    public void Its_clock_goes_on_until_the_current_is_cut()
    {
        var instrument = On("Quay-A");
        instrument.PressMark(Eye.Right, PupilEdge.Nasal);
        instrument.SwitchOff();
        var ticks = new List<long>();
        for (var at = TimeSpan.Zero; at < TimeSpan.FromSeconds(1.9); at += TimeSpan.FromMilliseconds(10))
        {
            instrument.Advance(TimeSpan.FromMilliseconds(10));
            ticks.AddRange(
                Lines(instrument.Collect(at))
                    .Where(l => l.StartsWith("BEAT", StringComparison.Ordinal))
                    .Select(l => long.Parse(l.Split(',')[2], CultureInfo.InvariantCulture))
            );
        }

        Assert.Equal(PowerState.GoingOff, instrument.Power);
        Assert.Equal(2, ticks.Count);
        Assert.InRange(ticks[1] - ticks[0], 990, 1010);
    }

    private static SimulatedInstrument On(string model)
    {
        var instrument = new SimulatedInstrument(InstrumentModels.Find(model)!, new SerialNumber("QA-0042"), seed: 3);
        instrument.SwitchOn();
        return instrument;
    }

    private static void Say(SimulatedInstrument instrument, string body)
    {
        var check = LineCrc.Of(Encoding.ASCII.GetBytes(body));
        var line = string.Create(CultureInfo.InvariantCulture, $"{body}*{check:X8}\n");
        instrument.Receive(Encoding.ASCII.GetBytes(line), TimeSpan.FromSeconds(0.05));
    }

    private static string[] Lines(byte[] said) =>
        [.. Encoding.ASCII.GetString(said).TrimEnd('\n').Split('\n').Select(l => l.Split('*')[0])];
}
