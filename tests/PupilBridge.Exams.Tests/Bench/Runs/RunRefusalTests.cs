using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>What is about a patient is refused for a run, and what is about a run leaves no trace in a patient's exam.</summary>
public class RunRefusalTests
{
    [Theory]
    [InlineData("shape R round")]
    [InlineData("direct R 3")]
    [InlineData("swing short alike")]
    [InlineData("attach Q-1001")]
    [InlineData("move Q-1001")]
    [InlineData("split p")]
    [InlineData("status R drops")]
    [InlineData("accept Near")]
    [InlineData("bell R II")]
    [InlineData("filter R 1 StillWorse")]
    [InlineData("ready")]
    [InlineData("aside")]
    [InlineData("sign 1")]
    [InlineData("amend")]
    [InlineData("undo p")]
    public void A_run_is_no_exam_of_a_patient(string entry)
    {
        var before = Script.Run("meet A; run: bench timing; mode measure; p: pair R 3200; pair L 3200").Run;
        var after = Script
            .Run($"meet A; run: bench timing; mode measure; p: pair R 3200; pair L 3200; {entry} exam=run")
            .Run;
        Assert.Equal("it is a run on the bench, and no exam of a patient", Assert.Single(after.Incidents).Detail);
        Assert.Equal(
            before,
            after with
            {
                Incidents = before.Incidents,
                EntryIds = before.EntryIds,
                Entries = before.Entries,
                LastActivity = before.LastActivity,
            }
        );
    }

    [Theory]
    [InlineData("sending 1 Sent")]
    [InlineData("deciding 1 Again")]
    public void A_run_is_sent_nowhere(string entry)
    {
        var folded = Script.Run($"meet A; run: bench timing; {entry} exam=run");
        Assert.Empty(folded.Run.Sendings);
        Assert.Single(folded.Changes.OfType<EntryIgnored>());
    }

    [Fact]
    public void Remarks_light_and_fixation_belong_to_a_run_as_well()
    {
        var run = Script
            .Run("meet A; run: bench timing; note lamp replaced exam=run; say dim exam=run; say near exam=run")
            .Run;
        Assert.Equal("lamp replaced", Assert.Single(run.Notes).Text);
        Assert.Equal(RoomLight.Dim, Assert.Single(run.Light).Light);
        Assert.Equal(Exams.Entries.Fixation.Near, Assert.Single(run.Fixations).Fixation);
        Assert.Empty(run.Incidents);
    }

    [Theory]
    [InlineData("reading 5 aside dust")]
    [InlineData("finish")]
    [InlineData("giveup it is stuck")]
    [InlineData("issue 1")]
    [InlineData("adopt 0.08 12")]
    public void An_entry_of_the_bench_about_an_exam_changes_nothing_of_it(string entry)
    {
        const string exam = "meet A; bright; open Q-1001; mode measure; pair R 3200; +1000;";
        var folded = Script.Run($"{exam} astray {entry}");
        Assert.Equal(Script.Run(exam).Exam, folded.Exam);
        Assert.Contains(
            "exam of a patient",
            Assert.Single(folded.Changes.OfType<EntryIgnored>()).Reason,
            StringComparison.Ordinal
        );
        Assert.Equal(1, folded.Book.NextCertificate);
    }

    [Fact]
    public void An_entry_about_a_run_that_is_not_there_is_ignored() =>
        Assert.Single(Script.Run("meet A; m: mode idle; finish exam=m").Changes.OfType<EntryIgnored>());

    public static TheoryData<string, Func<BenchRunBegun, BenchRunBegun>> BadRuns =>
        new()
        {
            { "set of reference discs is needed", run => run with { DiscSet = null } },
            { "TooFewDiscs", run => run with { DiscSet = run.DiscSet! with { Discs = [run.DiscSet.Discs[0]] } } },
            { "names nothing to measure", run => run with { Plan = [] } },
            { "no disc 'd6'", run => run with { Plan = [new(Eye.Left, "d6", null)] } },
            { "no disc ''", run => run with { Plan = [new(Eye.Left, null, null)] } },
            { "straightness", run => run with { StraightnessMillimetres = -0.001 } },
            { "straightness", run => run with { StraightnessMillimetres = double.NaN } },
            { "temperature", run => run with { TemperatureCelsius = double.PositiveInfinity } },
            { "limit above 0", run => run with { Rule = run.Rule! with { MaximumPermissibleErrorMillimetres = 0 } } },
            { "guard band", run => run with { Rule = run.Rule! with { GuardBandFactor = double.NaN } } },
            {
                "one disc only",
                run =>
                    run with
                    {
                        Kind = BenchRunKind.QuickCheck,
                        Plan = [new(Eye.Left, "d2", null), new(Eye.Left, "d5", null)],
                    }
            },
            { "room light", run => run with { Kind = BenchRunKind.LiveRepeatability } },
            { "names nothing to measure", run => run with { Kind = BenchRunKind.LiveRepeatability, Plan = [] } },
        };

    [Theory]
    [MemberData(nameof(BadRuns))]
    public void A_run_that_nothing_could_be_computed_from_does_not_begin(
        string why,
        Func<BenchRunBegun, BenchRunBegun> spoil
    )
    {
        var journal = Script.Journal("meet A; open Q-1001; +1000; bench calibration all 2");
        var begun = Assert.IsType<BenchRunBegun>(journal[^1].Entry);
        Assert.Null(BenchRunCheck.WhyNot(begun));
        var folded = Folded.Of([.. journal.SkipLast(1), journal[^1] with { Entry = spoil(begun) }]);
        Assert.Empty(folded.Runs);
        Assert.Contains(why, Assert.Single(folded.Changes.OfType<EntryIgnored>()).Reason, StringComparison.Ordinal);
        // The exam that is under way is not ended by it.
        Assert.True(folded.Exam.TakesEvents);
    }

    [Fact]
    public void A_set_of_discs_that_calibrates_nothing_is_not_kept()
    {
        var journal = Script.Journal("discs");
        var entered = Assert.IsType<DiscSetEntered>(journal[0].Entry);
        Assert.Equal(entered, Folded.Of(journal).Book.DiscSets["quay set"]);
        var inMicrometres = entered with
        {
            Set = entered.Set with { Discs = [new("d2", 2000, 3), new("d5", 5000, 3), new("d8", 8000, 3)] },
        };
        var folded = Folded.Of([journal[0] with { Entry = inMicrometres }]);
        Assert.Empty(folded.Book.DiscSets);
        Assert.Contains(
            nameof(DiscSetFault.ImpossibleDiameter),
            Assert.Single(folded.Changes.OfType<EntryIgnored>()).Reason,
            StringComparison.Ordinal
        );
    }
}
