using PupilBridge.Constructed;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.ExpectedSizes;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Criteria;

/// <summary>The numbers that criteria take from published sources, and traps found in texts and code.</summary>
public class PublishedNumbersTests
{
    private static readonly CriteriaLimits Limits = CriteriaLimits.Default;

    private static Finding One(string done, string id, Eye? eye = null) =>
        Findings.Of(ConstructedExam.Of(done)).First(f => f.Criterion == id && (eye is null || f.Eye == eye));

    /// <summary>0.4 mm: Lam 1987. 1.0 mm: textbook. 0.4 mm between 5 s and 15 s: Crippa 2007. 6 s: Bell 1993.</summary>
    [Fact]
    public void The_defaults_are_the_published_ones_and_the_catalogue_says_the_same()
    {
        Assert.Equal(
            (400, 1000, 400),
            (Limits.DescriptiveAnisocoria.Value, Limits.ClinicalAnisocoria.Value, Limits.DilationLag.Value)
        );
        Assert.Equal(
            (5_000, 15_000, 6_000),
            (Limits.LagEarlyMilliseconds, Limits.LagLateMilliseconds, Limits.BellProlongedMilliseconds)
        );
        Assert.Equal(0.4, CriteriaCatalogue.Find("anisocoria-descriptive")!.Limit!.Default);
        Assert.Equal(1.0, CriteriaCatalogue.Find("anisocoria-clinical")!.Limit!.Default);
        Assert.Equal(0.4, CriteriaCatalogue.Find("dilation-lag")!.Limit!.Default);
        Assert.Equal(6, CriteriaCatalogue.Find("rapd-bell-grade")!.Limit!.Default);
        Assert.Null(CriteriaCatalogue.Find("no-such"));
    }

    /// <summary>A misprint of a teaching page: inequality is visible at "about 3 mm", plainly 0.3.</summary>
    [Fact]
    public void Half_a_millimetre_and_more_does_not_wait_for_three() =>
        Assert.Equal(CriterionVerdict.Met, One("bright 4.00/3.20; dim 6.00/5.20", "anisocoria-descriptive").Verdict);

    [Fact]
    public void Limits_are_configuration_and_the_finding_names_the_one_in_use()
    {
        var input = ConstructedExam.Of("bright 4.00/3.20");
        var wide = input with { Limits = Limits with { DescriptiveAnisocoria = new(1500) } };
        var finding = Findings.Of(wide).First(f => f.Criterion == "anisocoria-descriptive");
        Assert.Equal((CriterionVerdict.NotMet, 1.5), (finding.Verdict, finding.Limit));
        Assert.Contains("at most the descriptive limit of 1.5 mm", finding.Sentence, StringComparison.Ordinal);
        var profile = Profile.Default with { Chart = ChartRules.Default with { EqualWithin = new(700) } };
        Assert.Equal(700, CriteriaLimits.For(profile).DescriptiveAnisocoria.Value);
    }

    /// <summary>40 people, mean difference +0.032 mm, 95 % CI -0.030 to +0.094 (abstract): (0.094 + 0.030)/2 · √40 / t39.</summary>
    [Fact]
    public void The_scatter_between_visits_follows_from_the_published_interval()
    {
        var deviation = (0.094 + 0.030) / 2 * Math.Sqrt(40) / Quantiles.StudentT(39);
        Assert.Equal(0.194, deviation, 3);
        Assert.Equal(Limits.BetweenVisits.Millimetres, deviation, 2);
        Assert.Equal(0.032, (0.094 - 0.030) / 2, 3);
    }

    /// <summary>Bradley 2011: everyone lay within 2.1 mm of the decade's mean. Winn 1994: the spread halves from 9 to 4400 cd/m².</summary>
    [Fact]
    public void The_spread_holds_everyone_examined_in_the_dark_and_halves_in_bright_light()
    {
        var farthest = DarkNorm.All.Max(r =>
            Math.Max(r.MostMillimetres - r.MeanMillimetres, r.MeanMillimetres - r.LeastMillimetres)
        );
        Assert.Equal(2.08, farthest, 10);
        Assert.InRange(Limits.SpreadDim.Millimetres, farthest, farthest + 0.05);
        Assert.Equal(2.1, Limits.SpreadAt(0.001), 10);
        Assert.Equal(2.1, Limits.SpreadAt(9), 10);
        Assert.Equal(1.05, Limits.SpreadAt(4400), 10);
        Assert.Equal(1.05, Limits.SpreadAt(1e6), 10);
        Assert.Equal(1.575, Limits.SpreadAt(Math.Sqrt(9 * 4400)), 10);
    }

    /// <summary>A trap of public code: the width of a field where its area is meant. It changes what is expected by a millimetre.</summary>
    [Fact]
    public void A_width_in_place_of_an_area_would_show()
    {
        var right = One("bright 2.00/2.00; age 30; site-bright 100 20106.19 2", "size-beyond-age-and-light", Eye.Right);
        var wrong = One("bright 2.00/2.00; age 30; site-bright 100 160 2", "size-beyond-age-and-light", Eye.Right);
        Assert.True(Math.Abs(right.Value!.Value - wrong.Value!.Value) > 1, $"{right.Detail}, {wrong.Detail}");
        Assert.NotEqual(right.Detail, wrong.Detail);
    }

    /// <summary>Lux alone does not give a luminance: with a sensor's lux and no measured field nothing is expected.</summary>
    [Fact]
    public void Lux_alone_expects_nothing()
    {
        var finding = One("lux 300", "size-beyond-age-and-light", Eye.Right);
        Assert.Equal((CriterionVerdict.NotExamined, FindingReason.NoLuminance), (finding.Verdict, finding.Reason));
        Assert.DoesNotContain("expected", finding.Sentence, StringComparison.Ordinal);
    }

    /// <summary>The expected size of a worked value: 100 cd/m², 60° disc, 20 years, both eyes: 2.950617 mm (computed).</summary>
    [Fact]
    public void The_expected_size_stands_in_the_sentence()
    {
        var finding = One("age 20; site-bright 100 2827.4334 2", "size-beyond-age-and-light", Eye.Right);
        Assert.Equal(3.20 - 2.950617, finding.Value!.Value, 5);
        Assert.Contains("expected 2.95 mm", finding.Sentence, StringComparison.Ordinal);
        Assert.Contains("Context only", finding.Sentence, StringComparison.Ordinal);
    }

    /// <summary>A trap of public code: the bracket around the whole exponent expects 20 mm of a child of five.</summary>
    [Fact]
    public void A_child_is_expected_to_have_a_childs_pupil_and_the_form_is_named()
    {
        var finding = Findings
            .Of(ConstructedExam.Of("age 5; site-dim 1 2827.433388 2"))
            .Single(f => f is { Criterion: "size-beyond-age-and-light", Eye: Eye.Left, Light: RoomLight.Dim });
        Assert.Equal(Math.Abs(5.05 - 5.044312), finding.Value!.Value, 5);
        Assert.Contains("more hypothetical form for children", finding.Sentence, StringComparison.Ordinal);
    }

    /// <summary>The lag needs both times after one darkening: light in between makes two of it.</summary>
    [Fact]
    public void Sizes_of_two_darkenings_make_no_lag()
    {
        const string begin = "meet A; fix far; lux 300; open Q-1; +1000; mode measure; +500;";
        const string early = "lux 1; +3000; pair R 4600; pair L 3600;";
        const string late = "+7000; pair R 5200; pair L 5100;";
        CriterionVerdict Lag(string script) =>
            Findings
                .Of(new() { Exam = Script.Run(begin + script).Exam })
                .Single(f => f.Criterion == "dilation-lag")
                .Verdict;
        Assert.NotEqual(CriterionVerdict.NotExamined, Lag(early + late));
        Assert.Equal(CriterionVerdict.NotExamined, Lag(early + "lux 300; +1000; lux 1; +7000;" + late));
    }
}
