using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Views;

namespace PupilBridge.Exams.Tests.Assembly;

public class SendingTests
{
    private const string Signed =
        "meet A; bright; open Q-1001; +1000; mode measure; +500; pair R 3200; pair L 3150; shape R round; shape L round;"
        + "mode idle; +1000; ready; +1000; sign 1;";

    [Theory]
    [InlineData("", OutboxState.Waiting)]
    [InlineData("sending 1 Begun;", OutboxState.Begun)]
    [InlineData("sending 1 Begun; sending 1 Sent;", OutboxState.Sent)]
    [InlineData("sending 1 Begun; sending 1 Doubtful;", OutboxState.Doubtful)]
    [InlineData("sending 1 Begun; sending 1 Refused;", OutboxState.Refused)]
    [InlineData("sending 1 Begun; sending 1 Doubled;", OutboxState.Doubled)]
    [InlineData("sending 1 Begun; sending 1 Refused; deciding 1 Again;", OutboxState.Waiting)]
    [InlineData("deciding 1 Withheld;", OutboxState.Withheld)]
    [InlineData("deciding 1 Withheld; deciding 1 Again;", OutboxState.Waiting)]
    [InlineData("sending 1 Begun; sending 1 Sent; aside;", OutboxState.ToWithdraw)]
    [InlineData("sending 1 Begun; aside;", OutboxState.ToWithdraw)]
    [InlineData("sending 1 Begun; aside; sending 1 Sent;", OutboxState.ToWithdraw)]
    [InlineData("sending 1 Begun; sending 1 Sent; aside; sending 1 Sent back;", OutboxState.Withdrawn)]
    [InlineData("sending 1 Begun; sending 1 Sent; aside; sending 1 Refused back;", OutboxState.Refused)]
    [InlineData("sending 1 Begun; sending 1 Sent; aside; deciding 1 Withheld;", OutboxState.Withheld)]
    [InlineData("sending 1 Begun; sending 1 Sent; s: aside; sending 1 Sent back; undo s;", OutboxState.Waiting)]
    [InlineData("aside;", OutboxState.NotToSend)]
    public void How_far_a_version_is_follows_from_its_steps(string steps, OutboxState expected)
    {
        var exam = Script.Run(Signed + steps).Exam;
        Assert.Equal(expected, OutboxStates.Of(exam, exam.SignedVersions[0]));
    }

    [Theory]
    [InlineData("sending 2 Sent;")]
    [InlineData("deciding 1 Again;")]
    [InlineData("sending 1 Begun; sending 1 Sent; deciding 1 Again;")]
    [InlineData("sending 1 Begun; sending 1 Sent; deciding 1 Withheld;")]
    [InlineData("aside; deciding 1 Withheld;")]
    public void What_does_not_fit_is_not_taken(string steps)
    {
        var before = Script.Run(Signed + steps[..(steps[..^1].LastIndexOf(';') + 1)]).Exam;
        Assert.Equal(before.Sendings, Script.Run(Signed + steps).Exam.Sendings);
    }

    [Fact]
    public void A_version_that_was_begun_may_be_there_and_one_that_was_never_tried_is_not()
    {
        Assert.False(OutboxStates.MayBeThere(OutboxStates.StepsOf(Script.Run(Signed).Exam, 1)));
        var begun = Script.Run(Signed + "sending 1 Begun; sending 1 Refused; deciding 1 Again;").Exam;
        Assert.True(OutboxStates.MayBeThere(OutboxStates.StepsOf(begun, 1)));
    }

    [Fact]
    public void Each_version_has_its_own_way()
    {
        var exam = Script.Run(Signed + "sending 1 Begun; sending 1 Sent; amend; sign 2;").Exam;
        Assert.Equal(
            [OutboxState.Sent, OutboxState.Waiting],
            exam.SignedVersions.Select(version => OutboxStates.Of(exam, version))
        );
    }

    [Fact]
    public void Sending_changes_nothing_that_a_signature_or_an_amendment_looks_at()
    {
        var before = Script.Run(Signed + "amend;").Exam;
        var after = Script.Run(Signed + "amend; sending 1 Begun; sending 1 Sent;").Exam;
        Assert.Equal(2, after.Sendings.Count);
        Assert.Equal(before, after with { Sendings = before.Sendings });
    }
}
