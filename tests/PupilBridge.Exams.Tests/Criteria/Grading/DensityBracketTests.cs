using CsCheck;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Criteria.Grading;

/// <summary>
/// Thompson HS, Corbett JJ, Cox TA, Surv Ophthalmol 1981;26(1):39-42: the filter before the better eye, steps of 0.3, until the
/// difference is nulled. The text was not at hand; the method is from memory.
/// </summary>
public class DensityBracketTests
{
    private const BracketAnswer Worse = BracketAnswer.StillWorse;

    private static BracketReading Read(params BracketAnswer[] answers) =>
        answers.Aggregate(DensityBracket.Begin(Eye.Left), (b, a) => b.Answer(a)).Reading;

    [Fact]
    public void It_begins_with_0_3_before_the_better_eye_and_says_what_to_judge()
    {
        var prompt = DensityBracket.Begin(Eye.Left).Next!;
        Assert.Equal((0.3, Eye.Right), (prompt.LogUnits, prompt.BeforeEye));
        Assert.StartsWith(
            "Hold the 0.3 log unit filter before OD (right), the better eye.",
            prompt.Words,
            StringComparison.Ordinal
        );
        Assert.Contains("Is OS (left) still worse, are both alike", prompt.Words, StringComparison.Ordinal);
        Assert.Equal(Eye.Left, DensityBracket.Begin(Eye.Right).Next!.BeforeEye);
    }

    [Fact]
    public void Each_step_is_0_3_stronger()
    {
        var bracket = DensityBracket.Begin(Eye.Right);
        foreach (var expected in new[] { 0.3, 0.6, 0.9, 1.2, 1.5, 1.8 })
        {
            Assert.Equal(expected, bracket.Next!.LogUnits, 12);
            bracket = bracket.Answer(Worse);
        }

        Assert.Null(bracket.Next);
        Assert.Equal(new(BracketState.BeyondStrongest, 1.8, null, 0), bracket.Reading);
    }

    [Fact]
    public void Alike_is_confirmed_by_the_next_filter_reversing_it()
    {
        Assert.Equal(new(BracketState.Running, null, null, 3), Read(Worse, BracketAnswer.Alike));
        Assert.Equal(new(BracketState.Nulled, 0.6, null, 0), Read(Worse, BracketAnswer.Alike, BracketAnswer.Reversed));
    }

    [Fact]
    public void Between_two_filters_nothing_is_interpolated()
    {
        Assert.Equal(new(BracketState.Between, 0.3, 0.6, 0), Read(Worse, BracketAnswer.Reversed));
        Assert.Equal(new(BracketState.Between, 0.0, 0.3, 0), Read(BracketAnswer.Reversed));
    }

    [Fact]
    public void At_the_strongest_filter_alike_ends_it()
    {
        var bracket = DensityBracket.Begin(Eye.Right, strongestStep: 2).Answer(Worse).Answer(BracketAnswer.Alike);
        Assert.Equal(new(BracketState.Nulled, 0.6, null, 0), bracket.Reading);
    }

    [Fact]
    public void Answers_that_contradict_each_other_are_inconclusive()
    {
        Assert.Equal(BracketState.Inconclusive, Read(BracketAnswer.Alike, Worse).State);
        Assert.Equal(BracketState.Inconclusive, Read(BracketAnswer.Alike, BracketAnswer.Alike).State);
    }

    [Fact]
    public void What_could_not_be_seen_is_asked_again_at_the_same_filter_and_only_once()
    {
        Assert.Equal(new(BracketState.Running, null, null, 2), Read(Worse, BracketAnswer.CouldNotSee));
        Assert.Equal(BracketState.Inconclusive, Read(BracketAnswer.CouldNotSee, BracketAnswer.CouldNotSee).State);
        Assert.Equal(
            BracketState.Nulled,
            Read(
                BracketAnswer.CouldNotSee,
                BracketAnswer.Alike,
                BracketAnswer.CouldNotSee,
                BracketAnswer.Reversed
            ).State
        );
    }

    [Fact]
    public void Once_it_is_over_it_takes_no_answer()
    {
        var over = DensityBracket.Begin(Eye.Right).Answer(BracketAnswer.Reversed);
        Assert.Throws<InvalidOperationException>(() => over.Answer(Worse));
        Assert.Throws<ArgumentOutOfRangeException>(() => DensityBracket.Begin((Eye)7));
        Assert.Throws<ArgumentOutOfRangeException>(() => DensityBracket.Begin(Eye.Right, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => DensityBracket.Begin(Eye.Right).Answer((BracketAnswer)9));
    }

    /// <summary>An examiner who sees truly finds a defect of any size to within one step.</summary>
    [Fact]
    public void A_true_examiner_brackets_any_defect() =>
        Gen.Select(Gen.Double[0.01, 1.79], Gen.Bool)
            .Sample(
                (defect, isRight) =>
                {
                    var bracket = DensityBracket.Begin(isRight ? Eye.Right : Eye.Left);
                    while (bracket.Next is { } next)
                    {
                        var left = defect - next.LogUnits;
                        var alike = Math.Abs(left) < 0.1;
                        bracket = bracket.Answer(
                            alike ? BracketAnswer.Alike
                            : left > 0 ? Worse
                            : BracketAnswer.Reversed
                        );
                    }

                    var reading = bracket.Reading;
                    var upper = reading.UpperLogUnits ?? reading.LogUnits!.Value;
                    Assert.Contains(reading.State, new[] { BracketState.Nulled, BracketState.Between });
                    Assert.InRange(defect, reading.LogUnits!.Value - 0.1, upper + 0.1);
                },
                iter: 2_000
            );
}
