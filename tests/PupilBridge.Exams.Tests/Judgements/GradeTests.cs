using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Judgements;

public class GradeTests
{
    [Theory]
    [InlineData("0", 0)]
    [InlineData("0.5", 1)]
    [InlineData("2", 4)]
    [InlineData("3.5", 7)]
    [InlineData("4", 8)]
    public void A_grade_is_0_to_4_in_half_steps(string text, int halfSteps)
    {
        Assert.True(Grade.TryParse(text, out var grade));
        Assert.Equal(Grade.FromHalfSteps(halfSteps), grade);
        Assert.Equal(text, grade.ToString());
    }

    [Theory]
    [InlineData("")]
    [InlineData("5")]
    [InlineData("4.5")]
    [InlineData("-1")]
    [InlineData("2.3")]
    [InlineData("1,5")]
    [InlineData("12")]
    [InlineData("two")]
    [InlineData(null)]
    public void Anything_else_is_no_grade(string? text) => Assert.False(Grade.TryParse(text, out _));

    [Theory]
    [InlineData(-1)]
    [InlineData(9)]
    public void A_grade_cannot_be_out_of_range(int halfSteps) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Grade.FromHalfSteps(halfSteps));

    [Fact]
    public void A_forgotten_grade_reads_as_not_seen_and_never_as_a_number()
    {
        Assert.Equal(Grade.CouldNotSee, default);
        Assert.Null(default(Grade).Value);
        Assert.NotEqual(Grade.CouldNotSee, Grade.Of(0));
    }

    [Fact]
    public void A_consensual_response_is_observed_in_the_other_eye() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new ConsensualResponse(Eye.Right, Eye.Right, Grade.Of(3)));

    [Fact]
    public void A_swinging_outcome_belongs_to_a_swinging_block() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new SwingOutcome(Block.Direct, SwingFinding.Alike, PupilsObserved.Both)
        );
}
