using PupilBridge.Constructed;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Criteria.Grading;

/// <summary>Bell RA et al., Arch Ophthalmol 1993;111(7):938-942 (abstract): grades I to V, 3 s per eye, 6 s for IV.</summary>
public class BellScaleTests
{
    private static BellGrade[] Offered(string done, Eye worse) =>
        [.. BellScale.Offered(ConstructedExam.Of(done).Exam, worse)];

    [Fact]
    public void Grade_four_is_offered_only_where_six_seconds_were_done_in_the_better_eye()
    {
        Assert.DoesNotContain(BellGrade.IV, Offered("short R; long R", Eye.Right));
        Assert.Contains(BellGrade.IV, Offered("short R; long R; prolonged R", Eye.Right));
        Assert.DoesNotContain(BellGrade.IV, Offered("short R; long R; prolonged L", Eye.Right));
        Assert.Equal(4, Offered("short R; long R", Eye.Right).Length);
    }

    [Fact]
    public void Nothing_is_offered_before_the_long_dwell_is_complete() =>
        Assert.Empty(
            BellScale.Offered(Script.Run("meet A; bright; open Q-1; mode measure; pair R 3200").Exam, Eye.Right)
        );

    /// <summary>A trap of public texts: plus scales and this one share the word "grade"; none is turned into another.</summary>
    [Fact]
    public void A_grade_is_written_with_its_scale_and_never_converted()
    {
        foreach (var grade in Enum.GetValues<BellGrade>())
        {
            var done = $"short R; long R; prolonged R; bell R {grade}";
            var finding = Findings.Of(ConstructedExam.Of(done)).Single(f => f.Criterion == "rapd-bell-grade");
            Assert.Equal(CriterionVerdict.Met, finding.Verdict);
            Assert.StartsWith(
                $"RAPD of OD (right), scale {BellScale.Name}: grade {grade} (",
                finding.Sentence,
                StringComparison.Ordinal
            );
            Assert.Null(finding.Value);
            // Neither the mean log units of the paper (0.4, 0.7, 1.1, 2.0) nor pluses of another scale.
            Assert.DoesNotMatch(@"\d\.\d|\+|log", finding.Sentence);
        }

        var filters = Findings.Of(ConstructedExam.Of("short R; long R; prolonged R; bell R II"));
        Assert.Equal(CriterionVerdict.NotExamined, filters.Single(f => f.Criterion == "rapd-log-units").Verdict);
        Assert.Throws<ArgumentOutOfRangeException>(() => BellScale.Words((BellGrade)6));
    }
}
