using CsCheck;

namespace PupilBridge.ExamLog.Tests.Engine;

public class SortKeyTests
{
    [Fact]
    public void Compared_byte_by_byte_keys_stand_in_the_order_of_time_then_id() =>
        Gen.Select(Gen.Long, Gen.String[Gen.Char['A', 'z'], 1, 8], Gen.Long, Gen.String[Gen.Char['A', 'z'], 1, 8])
            .Sample(
                (timeA, idA, timeB, idB) =>
                {
                    var expected = timeA != timeB ? timeA.CompareTo(timeB) : Math.Sign(string.CompareOrdinal(idA, idB));
                    var found = string.CompareOrdinal(SortKey.Of("Q-1", timeA, idA), SortKey.Of("Q-1", timeB, idB));
                    Assert.Equal(expected, Math.Sign(found));
                }
            );

    [Fact]
    public void A_list_ends_before_the_list_whose_name_goes_on()
    {
        var last = SortKey.Of("Q-1", long.MaxValue, "z");

        Assert.True(string.CompareOrdinal(last, SortKey.End("Q-1")) < 0);
        Assert.True(string.CompareOrdinal(SortKey.End("Q-1"), SortKey.Edge("Q-10", long.MinValue)) < 0);
        Assert.True(string.CompareOrdinal(SortKey.Edge("Q-1", 5), SortKey.Of("Q-1", 5, "A")) < 0);
        Assert.True(string.CompareOrdinal(SortKey.Of("Q-1", 4, "z"), SortKey.Edge("Q-1", 5)) < 0);
    }
}
