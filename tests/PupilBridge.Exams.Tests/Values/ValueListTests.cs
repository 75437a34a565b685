using System.Text.Json;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Values;

public class ValueListTests
{
    [Fact]
    public void Lists_are_equal_by_their_items_in_their_order()
    {
        ValueList<int> one = [1, 2];
        Assert.Equal(one, ValueList<int>.Empty.Add(1).Add(2));
        Assert.Equal(one.GetHashCode(), ((ValueList<int>)[1, 2]).GetHashCode());
        Assert.NotEqual(one, [2, 1]);
        Assert.Equal(ValueList<int>.Empty, default);
    }

    [Fact]
    public void The_default_list_is_empty_and_usable()
    {
        ValueList<string> none = default;
        Assert.Empty(none);
        Assert.Null(none.Latest);
        Assert.Equal("x", none.Add("x").Latest);
    }

    [Fact]
    public void A_list_and_the_judgements_in_it_read_back_from_JSON()
    {
        ValueList<Judgement> judgements =
        [
            new ShapeJudgement(Eye.Left, PupilShape.NotRound),
            new DirectResponse(Eye.Right, Grade.FromHalfSteps(5)),
            new ConsensualResponse(Eye.Right, Eye.Left, Grade.CouldNotSee),
            new SwingOutcome(Block.SwingLong, SwingFinding.LeftWorse, PupilsObserved.Right),
            new NearResponse(Eye.Left, Grade.Of(0)),
            new SlowToDilate(Eye.Right),
        ];
        var json = JsonSerializer.Serialize(judgements);
        Assert.Equal(judgements, JsonSerializer.Deserialize<ValueList<Judgement>>(json));
        Assert.Contains("\"judged\":\"direct\"", json);
    }
}
