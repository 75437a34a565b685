using System.Globalization;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.Devices;

/// <summary>The light meters at the lamps of Quay-B (docs/protocol.md, section 6.2, ability G).</summary>
public class LampMeterTests
{
    [Fact]
    public void Each_lamp_that_was_on_for_half_a_second_is_read_once_while_it_burns()
    {
        var told = Told(InstrumentModels.QuayB, new InstrumentOptions());
        // Direct 6, swinging short 8, swinging long 8: all of them 1 s or longer.
        Assert.Equal(22, told.Count(e => e.StartsWith("OUTPUT", StringComparison.Ordinal)));
        for (var i = 0; i < told.Count; i++)
        {
            if (told[i].StartsWith("OUTPUT", StringComparison.Ordinal))
            {
                var eye = told[i].Split(',')[1];
                Assert.Equal($"LAMP,{eye},ON,100", told[i - 1]);
                Assert.Equal($"LAMP,{eye},OFF,0", told[i + 1]);
            }
        }
    }

    [Theory]
    [InlineData(500, 22)]
    [InlineData(499, 0)]
    public void A_lamp_that_was_on_for_less_is_not_read(int dwellMilliseconds, int read)
    {
        var dwell = TimeSpan.FromMilliseconds(dwellMilliseconds);
        var trains = InstrumentModel.DefaultTrains.ToDictionary(t => t.Key, t => t.Value with { Dwell = dwell });
        var model = InstrumentModels.QuayB with
        {
            Trains = System.Collections.Immutable.ImmutableDictionary.CreateRange(trains),
        };
        var told = Told(model, new InstrumentOptions());
        Assert.Equal(22, told.Count(e => e.Contains(",OFF,", StringComparison.Ordinal)));
        Assert.Equal(read, told.Count(e => e.StartsWith("OUTPUT", StringComparison.Ordinal)));
    }

    [Fact]
    public void Unequal_lamps_read_unequal_and_the_readings_scatter()
    {
        var told = Told(
            InstrumentModels.QuayB,
            new InstrumentOptions
            {
                LampMillilux = new() { Right = 200_000, Left = 160_000 },
            }
        );
        var right = Readings(told, "R");
        var left = Readings(told, "L");
        // Eleven readings of 0.5 % scatter: their mean is good to 0.15 %, five times that is taken as the bound.
        Assert.InRange(right.Average(), 200_000 * 0.9925, 200_000 * 1.0075);
        Assert.InRange(left.Average(), 160_000 * 0.9925, 160_000 * 1.0075);
        Assert.True(right.Distinct().Count() > 5);
    }

    [Fact]
    public void A_model_without_meters_tells_none() =>
        Assert.DoesNotContain(
            Told(InstrumentModels.QuayA, new InstrumentOptions()),
            e => e.StartsWith("OUTPUT", StringComparison.Ordinal)
        );

    private static List<double> Readings(List<string> told, string eye) =>
        [
            .. told.Where(e => e.StartsWith("OUTPUT," + eye, StringComparison.Ordinal))
                .Select(e => double.Parse(e.Split(',')[2], CultureInfo.InvariantCulture)),
        ];

    private static List<string> Told(InstrumentModel model, InstrumentOptions options)
    {
        var bench = new Bench(model, options: options);
        bench.Run(1);
        bench.Turn(InstrumentMode.Sequence);
        bench.Run(75);
        OracleCheck.Holds(bench.Instrument.Truth, bench.Host);
        return [.. bench.Events];
    }
}
