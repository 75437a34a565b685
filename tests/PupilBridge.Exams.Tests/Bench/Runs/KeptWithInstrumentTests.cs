using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>What the bench found of an instrument goes into its later exams: live repeatability, lamps, home.</summary>
public class KeptWithInstrumentTests
{
    private const string Study = "meet A; mode measure; bench live R bright L bright R dim L dim; finish;";

    [Fact]
    public void An_adopted_repeatability_stands_in_the_profile_of_later_exams()
    {
        var exam = Script.Run(Study + "adopt 0.0812 12; bright; open Q-1001; +1000; pair R 3200").Exam;
        var rules = exam.Profile.Captures;
        // Rounded up to whole micrometres: never less than was found.
        Assert.Equal((82, true), (rules.SettingRepeatability.Value, rules.SettingRepeatabilityIsMeasured));
        Assert.Equal(0.0812, exam.Repeatability!.WithinMillimetres);
        // u² = 0.082² + 0.010²/6, from the setting and the scale's steps of 10 µm (JCGM 100:2008, 4.3.7); worked out by hand.
        var size = PupilSizes.Of(exam, Eye.Right, RoomLight.Bright)!;
        Assert.Equal(0.0821015631, size.Diameter.StandardUncertaintyMillimetres, 9);
    }

    [Theory]
    [InlineData(Study + "adopt 0.08 12; adopt 0.09 12", "it was adopted before")]
    [InlineData("meet A; bench live R bright L bright R dim L dim; adopt 0.08 12", "it is not finished")]
    [InlineData("meet A; bench timing; finish; adopt 0.08 12", "it is no study on a person")]
    [InlineData(Study + "adopt 0 12", "there is no repeatability to adopt")]
    [InlineData(Study + "adopt NaN 12", "there is no repeatability to adopt")]
    [InlineData(Study + "adopt 0.08 0", "there is no repeatability to adopt")]
    public void What_is_no_repeatability_is_not_adopted(string script, string why)
    {
        var folded = Script.Run(script);
        Assert.Equal(why, folded.Run.Incidents[^1].Detail);
        Assert.Equal(folded.Run.Bench!.IsAdopted, folded.Book.Lane(folded.Run.Serial)!.Repeatability is not null);
    }

    [Fact]
    public void An_adopted_study_is_not_changed_any_more()
    {
        var run = Script
            .Run(
                "meet A; bright; bench live R bright L bright R dim L dim; pair R 3200; finish; adopt 0.08 12;"
                    + "reading 1 aside blinked"
            )
            .Run;
        Assert.Empty(run.Bench!.Marks);
        Assert.StartsWith("its repeatability was adopted", run.Incidents[^1].Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void The_lamps_as_last_measured_stand_in_later_exams_and_in_no_earlier_one()
    {
        var folded = Script.Run(
            "meet A; open Q-1001; +1000; lamps 100,102 50,51; open Q-1002; +1000; lamps 100,102 100,102; open Q-1003"
        );
        Assert.Null(folded[1].LampBalance);
        // log10(101/50.5) = log10 2.
        Assert.Equal(Math.Log10(2), folded[2].LampBalance!.Balance!.LogUnits, 12);
        Assert.Equal(0, folded[3].LampBalance!.Balance!.LogUnits, 12);
    }

    [Theory]
    [InlineData("lamps 100 100")]
    [InlineData("lamps 100,0 100,101")]
    [InlineData("lamps 100,-1 100,101")]
    public void Readings_of_lamps_that_give_no_balance_change_nothing(string lamps)
    {
        var folded = Script.Run($"meet A; lamps 100,102 50,51; {lamps}");
        Assert.Equal(Math.Log10(2), folded.Book.Lane(new("Q7"))!.LampBalance!.Balance!.LogUnits, 12);
        Assert.Single(folded.Changes.OfType<EntryIgnored>());
    }

    [Fact]
    public void Rests_at_home_are_counted_with_how_far_off_they_were()
    {
        // Home of this model is 16 000 µm; 15 700 is as far as a rest at home may be, 15 699 is a reading.
        var rests = Script
            .Run(
                "meet B; open Q-1001; mode measure; rest R 16000; rest R 16020; rest R 15950; rest L 15700; rest L 15699"
            )
            .Exam.HomeRests;
        Assert.Equal(new HomeRests(3, -30, -50, 20), rests.Right);
        Assert.Equal(-10, rests.Right.MeanMicrometres);
        Assert.Equal(new HomeRests(1, -300, -300, -300), rests.Left);
    }

    [Fact]
    public void Rests_at_home_are_counted_with_mark_keys_too_and_only_once_after_a_split()
    {
        var folded = Script.Run(
            "meet A; bright; e: open Q-1001; mode measure; rest R 2010; pair R 3200; s: pair L 3300; rest R 1990; pair R 3100;"
                + "split s exam=e"
        );
        Assert.Equal(2, folded.Exams.Count);
        Assert.Equal(2, folded.Exams.Values.Sum(exam => exam.HomeRests.Right.Count));
    }
}
