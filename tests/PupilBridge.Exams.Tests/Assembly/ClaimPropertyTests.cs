using System.Text.RegularExpressions;
using CsCheck;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Tests.Scripts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>What the chart of any exam whatever may claim.</summary>
public partial class ClaimPropertyTests
{
    [Fact]
    public void The_chart_never_claims_what_was_not_examined()
    {
        int[] claims = new int[6];
        WildScripts.Any.Sample(
            script =>
            {
                foreach (var exam in WildScripts.Run(script).Exams.Values)
                    CheckClaims(exam, claims);
            },
            iter: 5_000
        );
        // A check that never meets a claim would prove nothing.
        Assert.All(claims, count => Assert.True(count > 20, $"claims met: {string.Join(", ", claims)}"));
    }

    [Fact]
    public void The_chart_names_the_eye_of_a_defect_just_where_the_criterion_does()
    {
        var named = 0;
        WildScripts.Any.Sample(
            script =>
            {
                foreach (var exam in WildScripts.Run(script).Exams.Values.Where(e => e.Status != ExamStatus.SetAside))
                {
                    var rapd = Findings.Of(new() { Exam = exam }).Single(f => f.Criterion == "rapd");
                    var line = ChartText.OneLine(exam);
                    var isNamed = NamedDefect().IsMatch(line);
                    Assert.True(
                        isNamed == (rapd.Verdict == CriterionVerdict.Met),
                        $"{rapd.Verdict} {rapd.Reason}: {line}"
                    );
                    if (isNamed)
                        Interlocked.Increment(ref named);
                }
            },
            iter: 12_000
        );
        Assert.True(named > 10, $"defects named: {named}");
    }

    [GeneratedRegex(@"RAPD O[DS] \((right|left)\) seen \(")]
    private static partial Regex NamedDefect();

    private static void CheckClaims(Exam exam, int[] claims)
    {
        var letters = Perrla.Of(exam);
        bool Both(Func<Eye, bool> holds) => holds(Eye.Right) && holds(Eye.Left);
        bool Measured(RoomLight light) => Both(e => exam.Captures.Any(c => c.Eye == e && c.Light == light));
        bool Judged<T>(Func<T, Eye> eye)
            where T : Judgement =>
            Both(e => exam.Judgements.Any(j => j.WithdrawnBy is null && j.Judgement is T t && eye(t) == e));
        void Claim(int which, bool isClaimed, bool wasExamined)
        {
            if (!isClaimed)
                return;
            Interlocked.Increment(ref claims[which]);
            Assert.True(wasExamined, $"claim {which} of {ChartText.OneLine(exam)}");
        }

        Claim(0, letters.Equal == LetterClaim.Claimed, Measured(RoomLight.Bright) && Measured(RoomLight.Dim));
        Claim(1, letters.Round == LetterClaim.Claimed, Judged<ShapeJudgement>(j => j.Eye));
        Claim(2, letters.ReactiveToLight == LetterClaim.Claimed, Judged<DirectResponse>(j => j.Eye));
        Claim(3, letters.Accommodation == LetterClaim.Claimed, Judged<NearResponse>(j => j.Eye));
        Claim(4, letters.Letters.StartsWith("PERRL", StringComparison.Ordinal), Measured(RoomLight.Bright));
        var alike = exam.Judgements.Any(j =>
            j is { WithdrawnBy: null, Judgement: SwingOutcome { Finding: SwingFinding.Alike } }
        );
        var timely = BlockRuns.Of(exam).Any(r => r is { HasReachedCount: true, IsTimely: true, Alternations: >= 4 });
        Claim(5, ChartText.OneLine(exam).Contains("no RAPD seen", StringComparison.Ordinal), alike && timely);
    }
}
