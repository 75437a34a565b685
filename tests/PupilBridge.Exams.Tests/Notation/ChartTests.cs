using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Notation;

namespace PupilBridge.Exams.Tests.Notation;

/// <summary>
/// PERRLA (pupils equal, round, reactive to light and accommodation), sizes as "5.1→3.2", OD above OS: common practice.
/// </summary>
public class ChartTests
{
    private const string Open = "meet A; lux 300; open Q-1001; +1000; mode measure;";
    private const string Sizes = "pair R 3200; pair L 3150; lux 1; +40000; pair R 5100; pair L 5050;";
    private const string Direct = "mode hold direct; directs;";
    private const string Swings =
        "mode hold short; swings 1000 4 R; swing short alike; mode hold long; swings 3000 4 R; swing long alike;";
    private const string Whole =
        Open + Sizes + "shape R round; shape L round;" + Direct + "direct R 3; direct L 3;" + Swings;

    [Theory]
    [InlineData(Whole + "ready", "PERRL (E within 0.4 mm; A: not examined)")]
    [InlineData(Whole + "mode hold near; near R 3; near L 3", "PERRLA (E within 0.4 mm)")]
    [InlineData(Whole + "mode hold near; near R 3", "PERRL (E within 0.4 mm; A: not examined)")]
    [InlineData(Whole + "mode hold near; near R 3; near L 0", "PERRL (E within 0.4 mm; A: a near response below 1+)")]
    [InlineData(Whole + "mode hold near; near R 3; near L ?", "PERRL (E within 0.4 mm; A: could not be seen)")]
    [InlineData(Whole + "shape L notround", "PE-RL (E within 0.4 mm; R: not round; A: not examined)")]
    [InlineData(Whole + "direct L 1.5", "PER (E within 0.4 mm; RL: a direct response below 2+; A: not examined)")]
    [InlineData(Whole + "direct L ?", "PER (E within 0.4 mm; RL: could not be seen; A: not examined)")]
    [InlineData(Whole + "status L drops", "P-R (E: unreliable here; RL: unreliable here; A: not examined)")]
    [InlineData(Open + Sizes + "ready", "PE (E within 0.4 mm; R: not examined; RL: not examined; A: not examined)")]
    [InlineData(
        Open + "pair R 3200; pair L 3900",
        "P (E: sizes differ by more than 0.4 mm; R: not examined; RL: not examined; A: not examined)"
    )]
    [InlineData(
        Open + "pair R 3200; pair L 3500; lux 1; +40000; pair R 5100; pair L 5100",
        "P (E: cannot tell at this uncertainty, limit 0.4 mm; R: not examined; RL: not examined; A: not examined)"
    )]
    [InlineData(
        Open,
        "PERRLA: no letter claimed (P: not both pupils measured; E: not examined; R: not examined; RL: not examined; A: not examined)"
    )]
    public void Letters_are_claimed_one_by_one_with_the_reason_for_each_that_is_not(string script, string expected) =>
        Assert.Equal(expected, ChartText.Block(Script.Run(script).Exam)[0]);

    [Fact]
    public void Sizes_are_written_dim_to_bright_with_their_uncertainty_and_that_they_are_uncalibrated()
    {
        var line = ChartText.OneLine(Script.Run(Whole).Exam);
        Assert.Contains("OD (right) dim→bright 5.1→3.2 mm, OS (left) dim→bright 5.1→3.2 mm", line);
        Assert.Contains("±0.20 mm (k = 2, setting repeatability assumed), uncalibrated", line);
    }

    [Fact]
    public void A_size_that_was_not_taken_is_called_not_examined()
    {
        var line = ChartText.OneLine(Script.Run(Open + "pair R 3200").Exam);
        Assert.Contains("OD (right) bright 3.2 mm, dim not examined, OS (left) sizes not examined", line);
    }

    [Theory]
    [InlineData(Whole, "no RAPD seen (short and long dwell)")]
    [InlineData(
        Open + "mode hold short; swings 1000 4 R; swing short alike",
        "no RAPD seen (short dwell; long dwell not examined)"
    )]
    [InlineData(
        Open + "mode hold short; swings 1000 4 R; swing short R",
        "RAPD OD (right) seen (short dwell; long dwell not examined), not graded"
    )]
    [InlineData(
        Open + "mode hold long; swings 3000 4 R; swing long L only=R",
        "RAPD OS (left) seen (long dwell; short dwell not examined), not graded; long dwell: only the pupil of OD (right) watched"
    )]
    [InlineData(Open, "Swinging: not examined")]
    [InlineData(Open + "mode hold short; swings 1100 4 R; swing short alike", "absence of an RAPD not claimed")]
    [InlineData(
        Whole + "mode hold short; swings 1000 4 R; swing short L",
        "outcomes disagree (short dwell: OS (left) worse, otherwise in the run before; long dwell: alike), repeat"
    )]
    [InlineData(
        Whole + "direct L 0; swing short L; swing long L",
        "light in OS (left) looked worse (short and long dwell), but the pupil of OS (left), which was watched, was not seen to respond to light: "
            + "the sides may be read the wrong way round, a defect of either eye not claimed, repeat watching only the pupil of OD (right)."
    )]
    [InlineData(
        Whole + "direct R 0; direct L 0; swing short L; swing long L",
        "looked worse (short and long dwell), but neither pupil was seen to respond to light: the sides may be read the wrong way round, "
            + "a defect of either eye not claimed."
    )]
    [InlineData(
        Whole + "direct L 0; consensual R 3; swing short L; swing long L",
        "RAPD OS (left) seen (short and long dwell), not graded"
    )]
    [InlineData(
        Whole + "direct L 0; swing short L only=R; swing long L only=R",
        "RAPD OS (left) seen (short and long dwell), not graded; short dwell: only the pupil of OD (right) watched"
    )]
    public void The_RAPD_state_stands_beside_the_letters(string script, string expected) =>
        Assert.Contains(expected, ChartText.OneLine(Script.Run(script).Exam));

    [Fact]
    public void PERRL_can_stand_beside_an_RAPD()
    {
        var script = Whole.Replace("alike", "R", StringComparison.Ordinal);
        var line = ChartText.OneLine(Script.Run(script).Exam);
        Assert.StartsWith("PERRL (", line, StringComparison.Ordinal);
        Assert.Contains("RAPD OD (right) seen (short and long dwell)", line);
    }

    [Fact]
    public void Right_stands_above_left_and_sides_are_always_in_words()
    {
        var block = ChartText.Block(Script.Run(Whole).Exam);
        Assert.StartsWith(
            "OD (right): dim→bright 5.1→3.2 mm; shape round; direct 3+; near not examined",
            block[1],
            StringComparison.Ordinal
        );
        Assert.StartsWith("OS (left):", block[2], StringComparison.Ordinal);
        Assert.Equal(ChartText.Caution, block[^1]);
    }

    [Theory]
    [InlineData("gap 3", "GAP: events")]
    [InlineData("conflict", "CONFLICT: event")]
    [InlineData("fault", "instrument fault 7: lamp weak")]
    [InlineData("boot; lux 1", "started anew")]
    [InlineData("status R drops", "OD (right): drops")]
    [InlineData("slow L", "OS (left) slow to dilate")]
    [InlineData("aside", "this exam was set aside")]
    [InlineData("stim R 200; swing long R", "1 stimulus outside the timing tolerance")]
    [InlineData("direct L 1", "not made ready for review")]
    [InlineData("direct L 1; ready", "near response was due and not examined")]
    [InlineData("direct L 1; accept near; ready", "near response: accepted as not examined")]
    [InlineData("near R 3", "1 judgement refused")]
    public void What_a_reader_must_know_is_never_left_out(string script, string note) =>
        Assert.Contains(
            ChartText.Block(Script.Run(Whole + script).Exam),
            line => line.Contains(note, StringComparison.Ordinal)
        );

    [Fact]
    public void A_calibrated_size_would_say_so() =>
        Assert.Contains(
            ", calibrated",
            ChartText.OneLine(Script.Run(Whole).Exam, new() { Right = new Exact(), Left = new Exact() })
        );

    private sealed class Exact : ICorrection
    {
        public bool IsCalibrated => true;

        public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres) =>
            (rawMillimetres, 0);
    }
}
