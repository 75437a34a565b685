namespace PupilBridge.Console.Tests.Keys;

/// <summary>When the lane tells that the session ends: by the page's own clock, from a quarter of an hour before.</summary>
public sealed class EndingTests : IDisposable
{
    private const string Source = """
        import { Ending, isSaid } from "./ending.js";
        let ending = null;
        export const begin = (seconds, now) => { ending = new Ending(JSON.parse(seconds), JSON.parse(now)); return "null"; };
        export const take = (seconds, now) => { ending.take(JSON.parse(seconds), JSON.parse(now)); return "null"; };
        export const minutes = (now) => JSON.stringify(ending.minutes(JSON.parse(now)));
        export const said = (upTo) => JSON.stringify([...Array(JSON.parse(upTo)).keys()].filter(isSaid));
        """;

    private readonly LaneScript script = new(Source);

    public void Dispose() => script.Dispose();

    [Fact]
    public void It_is_told_from_a_quarter_of_an_hour_before_and_counted_down()
    {
        script.Call("begin", 3600, 500);

        Assert.Null(Minutes(500));
        Assert.Null(Minutes(2_700_499));
        Assert.Equal(15, Minutes(2_700_500));
        Assert.Equal(2, Minutes(3_500_000));
        Assert.Equal(0, Minutes(3_600_500));
        Assert.Equal(0, Minutes(9_999_999));
    }

    [Fact]
    public void After_signing_in_again_it_is_no_longer_told()
    {
        script.Call("begin", 60, 0);
        Assert.Equal(1, Minutes(10));

        script.Call("take", 43_200, 20);
        Assert.Null(Minutes(30));
    }

    [Fact]
    public void Where_nobody_is_signed_in_nothing_ends()
    {
        script.Call("begin", null, 0);

        Assert.Null(Minutes(1e12));
    }

    [Fact]
    public void It_is_said_aloud_three_times_and_not_every_minute() =>
        Assert.Equal([1, 5, 15], script.Call("said", 16)!.AsArray().Select(one => (int)one!));

    private int? Minutes(double now) => (int?)script.Call("minutes", now);
}
