using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;
using static PupilBridge.Simulator.Tests.Eyes.Persons;

namespace PupilBridge.Simulator.Tests.Eyes;

public class SimulatedEyesTests
{
    [Theory]
    [InlineData(0.5, 30)]
    [InlineData(2, 8)]
    [InlineData(300, 30)]
    [InlineData(300, 75)]
    public void Settled_eyes_have_the_size_of_the_unified_formula(double lux, double age)
    {
        var eyes = new SimulatedEyes(Quiet(age: age), Scene.Room(50), 1);
        eyes.Show(Scene.Room(lux));
        eyes.Advance(TimeSpan.FromSeconds(60));
        var expected = SteadySize.Millimetres(Lighting.Room(lux).Flux, age);
        Assert.Equal(expected, eyes.Millimetres(Eye.Right), 1e-3);
        Assert.Equal(expected, eyes.Millimetres(Eye.Left), 1e-3);
    }

    [Fact]
    public void One_eye_lit_alone_counts_a_tenth_as_in_the_unified_formula()
    {
        var eyes = new SimulatedEyes(Quiet(), Scene.Room(0), 1);
        eyes.Show(Scene.Room(0).Lit(Eye.Right, 100));
        eyes.Advance(TimeSpan.FromSeconds(60));
        var expected = SteadySize.Millimetres(Lighting.Lamp(100).Flux * 0.1, 30);
        Assert.Equal(expected, eyes.Millimetres(Eye.Right), 1e-3);
    }

    // Common practice: the reflex begins 0.2 to 0.5 s after the light.
    [Theory]
    [InlineData(100)]
    [InlineData(1)]
    public void The_pupil_begins_to_narrow_after_0_2_to_0_5_s(int level)
    {
        var eyes = new SimulatedEyes(Quiet(), Dim, 1);
        eyes.Advance(TimeSpan.FromSeconds(5));
        var before = eyes.Millimetres(Eye.Right);
        eyes.Show(Dim.Lit(Eye.Right, level));
        var onset = Array.FindIndex(Record(eyes, Eye.Right, 2), mm => mm < before - 0.02) * 0.01;
        Assert.InRange(onset, 0.19, 0.5);
    }

    [Fact]
    public void A_pupil_under_a_lasting_light_narrows_and_then_escapes_a_little()
    {
        var eyes = new SimulatedEyes(Quiet(), Dim, 1);
        eyes.Show(Dim.Lit(Eye.Right, 100));
        var samples = Record(eyes, Eye.Right, 10);
        var smallest = samples.Min();
        var at = Array.IndexOf(samples, smallest) * 0.01;
        Assert.InRange(at, 0.5, 2);
        Assert.InRange(samples[^1] - smallest, 0.2, 1.0);
    }

    [Fact]
    public void More_light_narrows_the_pupil_more()
    {
        var last = double.MaxValue;
        foreach (var level in new[] { 1, 3, 10, 30, 100 })
        {
            var eyes = new SimulatedEyes(Quiet(), Dim, 1);
            eyes.Show(Dim.Lit(Eye.Left, level));
            var smallest = Record(eyes, Eye.Left, 1.5).Min();
            Assert.True(smallest < last, $"at {level} %: {smallest} mm after {last} mm");
            last = smallest;
        }
    }

    [Fact]
    public void The_consensual_response_equals_the_direct_one()
    {
        var eyes = new SimulatedEyes(Quiet(right: new EyeTruth { AfferentLossLogUnits = 0.9 }), Dim, 1);
        eyes.Show(Dim.Lit(Eye.Right, 100));
        for (var i = 0; i < 300; i++)
        {
            eyes.Advance(SimulatedEyes.Step);
            Assert.Equal(eyes.Millimetres(Eye.Right), eyes.Millimetres(Eye.Left), 12);
        }
    }

    [Fact]
    public void A_fixed_pupil_stays_while_its_fellow_reacts_to_light_in_either_eye()
    {
        var fixedPupil = new EyeTruth { LightGain = 0, UndrivenMillimetres = 6 };
        var eyes = new SimulatedEyes(Quiet(right: fixedPupil), Dim, 1);
        foreach (var lit in EyeFacts.Both)
        {
            var before = eyes.Millimetres(Eye.Left);
            eyes.Show(Dim.Lit(lit, 100));
            eyes.Advance(TimeSpan.FromSeconds(1));
            Assert.Equal(6, eyes.Millimetres(Eye.Right), 6);
            Assert.True(before - eyes.Millimetres(Eye.Left) > 1);
            eyes.Show(Dim);
            eyes.Advance(TimeSpan.FromSeconds(10));
        }
    }

    [Fact]
    public void A_near_target_narrows_pupils_that_light_does_not()
    {
        var poor = new EyeTruth { LightGain = 0.05 };
        var eyes = new SimulatedEyes(Quiet(poor, poor), Dim, 1);
        var start = eyes.Millimetres(Eye.Left);
        eyes.Show(Dim with { NearTarget = true });
        eyes.Advance(TimeSpan.FromSeconds(4));
        Assert.True(start - eyes.Millimetres(Eye.Left) > 1);
    }

    [Fact]
    public void An_offset_is_an_anisocoria_in_every_light()
    {
        foreach (var lux in new[] { 2.0, 300 })
        {
            var eyes = new SimulatedEyes(Quiet(left: new EyeTruth { SizeOffsetMillimetres = 0.6 }), Scene.Room(lux), 1);
            Assert.Equal(0.6, eyes.Millimetres(Eye.Left) - eyes.Millimetres(Eye.Right), 6);
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_eyes_however_the_time_is_portioned()
    {
        var truth = Quiet() with { UnrestMillimetres = 0.1 };
        var whole = new SimulatedEyes(truth, Dim, 5);
        var portioned = new SimulatedEyes(truth, Dim, 5);
        var other = new SimulatedEyes(truth, Dim, 6);
        whole.Advance(TimeSpan.FromSeconds(3));
        other.Advance(TimeSpan.FromSeconds(3));
        for (var i = 0; i < 1000; i++)
        {
            portioned.Advance(TimeSpan.FromMilliseconds(3));
        }

        Assert.Equal(whole.Millimetres(Eye.Right), portioned.Millimetres(Eye.Right));
        Assert.NotEqual(whole.Millimetres(Eye.Right), other.Millimetres(Eye.Right));
    }

    [Fact]
    public void The_unrest_has_about_the_stated_spread()
    {
        var eyes = new SimulatedEyes(Quiet() with { UnrestMillimetres = 0.1 }, Dim, 5);
        var samples = Record(eyes, Eye.Right, 600);
        var mean = samples.Average();
        var spread = Math.Sqrt(samples.Average(s => (s - mean) * (s - mean)));
        Assert.InRange(spread, 0.04, 0.12);
    }
}
