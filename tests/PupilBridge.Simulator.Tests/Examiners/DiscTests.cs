using System.Globalization;
using PupilBridge.Instrument;
using PupilBridge.Simulator.CommandLine;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Simulator.Tests.Examiners;

/// <summary>Discs in place of eyes, by scales that misread by a known amount.</summary>
public class DiscTests
{
    public static TheoryData<InstrumentModel, double, double> Truths =>
        new()
        {
            { InstrumentModels.QuayA, 0, 1 },
            { InstrumentModels.QuayA, 0.05, 1 },
            { InstrumentModels.QuayA, -0.03, 1.01 },
            { InstrumentModels.QuayB, 0, 0.98 },
            { InstrumentModels.QuayB, 0.1, 1.02 },
        };

    [Theory]
    [MemberData(nameof(Truths))]
    public void What_is_told_of_a_disc_is_offset_and_gain_of_its_diameter_within_a_step(
        InstrumentModel model,
        double offset,
        double gain
    )
    {
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            var errors = new PerEye<ScaleError> { Right = ScaleError.None, Left = ScaleError.None };
            errors = errors.With(eye, new ScaleError(offset, gain));
            var instrument = new SimulatedInstrument(
                model,
                new SerialNumber("QA-1"),
                1,
                new InstrumentOptions { ScaleErrors = errors }
            );
            instrument.SwitchOn();
            var bench = new SimulatedBench(instrument, scatterMillimetres: 0, seed: 1, haste: 4);
            bench.Put(eye, 4.002);
            while (bench.IsBusy)
            {
                bench.Step(TimeSpan.FromMilliseconds(10));
            }

            var step = model.Scales[eye].Resolution.Millimetres;
            Assert.Equal((offset + (gain * 4.002)), Told(instrument, model, eye), step * 1.0001);
            Assert.Equal(4.002, Assert.Single(bench.Settings).SetMillimetres, 1e-9);
        }
    }

    /// <summary>
    /// Two edges of a scatter of 10 µm each make a standard deviation of 14.1 µm; of 300 settings the mean lies within 4 of its own
    /// standard deviations (3.3 µm) of 0, and the deviation within 4 of its own (2.3 µm) of 14.1 µm.
    /// </summary>
    [Fact]
    public void Settings_scatter_about_the_disc_as_was_asked_and_are_not_biased()
    {
        var instrument = new SimulatedInstrument(InstrumentModels.QuayA, new SerialNumber("QA-1"), 1);
        instrument.SwitchOn();
        var bench = new SimulatedBench(instrument, scatterMillimetres: 0.01, seed: 5, haste: 4);
        for (var i = 0; i < 300; i++)
        {
            bench.Put(i % 2 == 0 ? Eye.Right : Eye.Left, 2 + (i % 3));
            while (bench.IsBusy)
            {
                bench.Step(TimeSpan.FromMilliseconds(10));
            }
        }

        var errors = bench.Settings.Select(one => 1000 * (one.SetMillimetres - one.PupilMillimetres)).ToArray();
        Assert.Equal(300, errors.Length);
        var mean = errors.Average();
        Assert.InRange(mean, -3.3, 3.3);
        Assert.InRange(Math.Sqrt(errors.Sum(e => (e - mean) * (e - mean)) / 299), 14.1 - 2.3, 14.1 + 2.3);
    }

    [Theory]
    [InlineData("OD 4.002", Eye.Right, 4.002)]
    [InlineData("  os   8 ", Eye.Left, 8.0)]
    public void A_typed_disc_is_read(string line, Eye eye, double millimetres) =>
        Assert.Equal((eye, millimetres), DiscLines.Read(line));

    [Theory]
    [InlineData("4.002")]
    [InlineData("OD 4,002")]
    [InlineData("OD 4002")]
    [InlineData("OD -4")]
    [InlineData("OX 4")]
    public void What_is_no_disc_is_none(string line) => Assert.Null(DiscLines.Read(line));

    /// <summary>The difference of the two positions that the instrument told, in mm.</summary>
    private static double Told(SimulatedInstrument instrument, InstrumentModel model, Eye eye)
    {
        var scale = model.Scales[eye];
        var outward = scale.Direction == ScaleDirection.Temporal ? 1 : -1;
        var side = eye == Eye.Right ? "R" : "L";
        int[] Positions(string kind) =>
            [
                .. instrument
                    .Truth.Events.Select(e => e.Text.Split('*')[0].Split(','))
                    .Where(words => words[0] == kind && words[1] == side)
                    .Select(words => int.Parse(words[^1], CultureInfo.InvariantCulture)),
            ];
        if (model.Can(InstrumentAbilities.MarkKeys))
        {
            var marks = Positions("EDGE");
            Assert.Equal(2, marks.Length);
            return outward * (marks[1] - marks[0]) / 1000.0;
        }

        var rests = Positions("REST");
        Assert.Equal(scale.Home.Value, rests[^1]);
        return outward * (rests[0] - scale.Home.Value) / 1000.0;
    }
}
