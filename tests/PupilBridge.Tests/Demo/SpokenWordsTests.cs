using PupilBridge.Clinic.Judging;
using PupilBridge.Demo;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Tests.Demo;

/// <summary>Whatever the simulated examiner says can be typed, and is read back as one judgement.</summary>
public sealed class SpokenWordsTests
{
    public static TheoryData<SpokenJudgement, string> Sayings =>
        new()
        {
            { new SpokenJudgement.ShapeSeen(Eye.Right, PupilShape.Round), "shape OD round" },
            { new SpokenJudgement.ShapeSeen(Eye.Left, PupilShape.Irregular), "shape OS not-round" },
            { new SpokenJudgement.LightGraded(Eye.Right, Eye.Right, 3), "direct OD 3" },
            { new SpokenJudgement.LightGraded(Eye.Right, Eye.Left, 0), "consensual lit OD 0" },
            { new SpokenJudgement.SwingSeen(Block.SwingShort, null), "swing short alike" },
            { new SpokenJudgement.SwingSeen(Block.SwingLong, Eye.Left), "swing long worse OS" },
            { new SpokenJudgement.NearGraded(Eye.Left, 4), "near OS 4" },
        };

    [Theory]
    [MemberData(nameof(Sayings))]
    public void A_saying_is_typed_and_understood(SpokenJudgement spoken, string typed)
    {
        Assert.Equal(typed, SpokenWords.Typed(spoken));
        var judgement = Assert.Single(JudgementSyntax.Read(typed));
        Assert.Equal(typed, JudgementSyntax.Write(judgement));
    }

    [Fact]
    public void Ready_is_no_judgement() => Assert.Null(SpokenWords.Typed(new SpokenJudgement.Ready()));
}
