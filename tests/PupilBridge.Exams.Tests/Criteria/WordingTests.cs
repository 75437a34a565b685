using System.Text.RegularExpressions;
using PupilBridge.Constructed;
using PupilBridge.Exams.Criteria;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Criteria;

/// <summary>What findings may say: never a diagnosis, never a reassurance, always whose decision it is.</summary>
public class WordingTests
{
    private static readonly Finding[] All =
    [
        .. CriteriaDocument.Rows.SelectMany(r => Findings.Of(ConstructedExam.Of(r.Done))),
    ];

    [Fact]
    public void No_text_diagnoses_or_reassures()
    {
        var texts = CriteriaCatalogue
            .All.SelectMany(c => (string[])[c.Asks, c.WhenMet, c.WhenNotMet, c.Caution, c.FurtherLook, .. c.Questions])
            .Concat(All.SelectMany(f => (string[])[f.Sentence, .. f.Cautions]))
            .Distinct();
        Assert.All(
            texts,
            text =>
            {
                var rest = text.Replace("is no reassurance", "", StringComparison.Ordinal);
                Assert.DoesNotMatch(
                    new Regex(
                        @"\b(normal|healthy|harmless|benign|safe|reassur\w*|diagnos\w*|rules? out|unremarkable)\b",
                        RegexOptions.IgnoreCase
                    ),
                    rest
                );
                Assert.DoesNotMatch(
                    @"\{[a-z]+\}|\bunknown mm\b",
                    text.Length > 0 && All.Any(f => f.Sentence == text) ? text : ""
                );
            }
        );
    }

    [Fact]
    public void Diseases_are_only_named_as_what_to_consider_or_suspect()
    {
        var named = new Regex(
            "Horner|third-nerve|glaucoma|angle closure|dissection|tumour|Argyll|tonic|midbrain|optic nerve|aneurysm"
        );
        Assert.All(
            CriteriaCatalogue.All.SelectMany(c => (string[])[c.WhenMet, c.WhenNotMet, c.Asks]),
            sentence => Assert.DoesNotMatch(named, sentence)
        );
        Assert.All(
            CriteriaCatalogue.All.Select(c => c.Caution).Where(c => named.IsMatch(c)),
            caution => Assert.Matches("[Cc]onsider", caution)
        );
    }

    [Fact]
    public void Whatever_is_met_closes_with_whose_decision_it_is_and_nothing_else_has_cautions()
    {
        Assert.All(
            All.Where(f => f.Verdict == CriterionVerdict.Met),
            f => Assert.Equal("Follow local policy; a licensed practitioner decides.", f.Cautions[^1])
        );
        Assert.All(All.Where(f => f.Verdict != CriterionVerdict.Met), f => Assert.Empty(f.Cautions));
    }

    [Fact]
    public void A_sign_that_was_not_found_excludes_nothing()
    {
        var signs = All.Where(f =>
            f.Verdict == CriterionVerdict.NotMet && CriteriaCatalogue.Find(f.Criterion)!.Kind == CriterionKind.Sign
        );
        Assert.All(signs, f => Assert.EndsWith("That alone excludes nothing.", f.Sentence, StringComparison.Ordinal));
    }

    [Fact]
    public void What_cannot_be_told_or_was_not_examined_says_why()
    {
        Assert.All(
            All.Where(f => f.Verdict is CriterionVerdict.CannotTell or CriterionVerdict.NotExamined),
            f =>
            {
                Assert.NotEqual(FindingReason.None, f.Reason);
                Assert.Contains(FindingReasons.Words(f.Reason), f.Sentence, StringComparison.Ordinal);
            }
        );
        Assert.All(Enum.GetValues<FindingReason>().Skip(1), r => Assert.NotEqual("", FindingReasons.Words(r)));
    }

    [Fact]
    public void Every_criterion_has_a_source_inputs_a_further_look_and_a_setting_that_exists()
    {
        Assert.Equal(CriteriaCatalogue.All.Length, CriteriaCatalogue.All.Select(c => c.Id).Distinct().Count());
        Assert.All(
            CriteriaCatalogue.All,
            c =>
            {
                Assert.NotEmpty(c.Sources);
                Assert.NotEmpty(c.Reads);
                Assert.NotEmpty(c.FurtherLook);
                if (c.Limit is { Setting: var setting } && !setting.StartsWith("Profile.", StringComparison.Ordinal))
                    Assert.NotNull(typeof(CriteriaLimits).GetProperty(setting));
            }
        );
    }

    [Fact]
    public void A_small_difference_is_never_called_reassuring()
    {
        var small = Findings.Of(ConstructedExam.Of("u 30; bright 3.10/3.60; dim 5.10/5.60"));
        Assert.All(
            small.Where(f => f is { Criterion: "anisocoria-descriptive", Verdict: CriterionVerdict.Met }),
            f =>
                Assert.Contains("a small one is no reassurance", string.Join(' ', f.Cautions), StringComparison.Ordinal)
        );
        var alike = small.Single(f => f.Criterion == "anisocoria-alike");
        Assert.Contains("that is no reassurance", alike.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("balance 30", false, false)]
    [InlineData("balance 400", true, false)]
    [InlineData("balance -", true, false)]
    [InlineData("bright 5.00/3.00; balance 30", false, true)]
    [InlineData("dim 6.00/5.00; balance 30", false, true)]
    [InlineData("dim 6.00/5.10; balance 30", false, false)]
    public void A_defect_carries_what_can_imitate_it(string done, bool lamps, bool sizes)
    {
        var findings = Findings.Of(ConstructedExam.Of(done + "; short L; long L"));
        var rapd = findings.Single(f => f.Criterion == "rapd");
        Assert.Equal((CriterionVerdict.Met, (Eye?)Eye.Left), (rapd.Verdict, rapd.Eye));
        Assert.Equal(lamps, rapd.Cautions.Any(c => c.StartsWith("The lamps' balance", StringComparison.Ordinal)));
        Assert.Equal(sizes, rapd.Cautions.Any(c => c.StartsWith("Marked anisocoria", StringComparison.Ordinal)));
    }

    [Fact]
    public void Larger_in_bright_and_larger_in_dim_carry_their_urgent_cautions_and_questions()
    {
        var bright = CriteriaCatalogue.Find("anisocoria-larger-in-bright")!;
        Assert.Contains("emergency", bright.Caution, StringComparison.Ordinal);
        var dim = CriteriaCatalogue.Find("anisocoria-larger-in-dim")!;
        Assert.Contains("referred urgently", dim.Caution, StringComparison.Ordinal);
        foreach (var criterion in new[] { bright, dim })
        {
            var asked = string.Join(' ', criterion.Questions);
            foreach (var about in new[] { "Lid", "eye movements", "Pain", "Drops" })
                Assert.Contains(about, asked, StringComparison.Ordinal);
        }
    }
}
