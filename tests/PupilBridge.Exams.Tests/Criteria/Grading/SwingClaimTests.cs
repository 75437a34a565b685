using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Criteria.Grading;

public class SwingClaimTests
{
    [Fact]
    public void Two_eyes_both_worse_within_one_dwell_are_refused_with_the_reason()
    {
        var claim = SwingClaim.Of(Block.SwingLong, new() { Right = true, Left = true }, PupilsObserved.Both);
        Assert.Null(claim.Outcome);
        Assert.Contains("compares the eyes with each other", claim.Refusal, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, false, SwingFinding.RightWorse)]
    [InlineData(false, true, SwingFinding.LeftWorse)]
    [InlineData(false, false, SwingFinding.Alike)]
    public void One_eye_or_none_is_an_outcome(bool right, bool left, SwingFinding expected)
    {
        var claim = SwingClaim.Of(Block.SwingShort, new() { Right = right, Left = left }, PupilsObserved.Right);
        Assert.Null(claim.Refusal);
        Assert.Equal(new(Block.SwingShort, expected, PupilsObserved.Right), claim.Outcome);
    }
}
