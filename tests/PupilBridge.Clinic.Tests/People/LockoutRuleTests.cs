using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class LockoutRuleTests
{
    [Theory]
    [InlineData(1, 5)]
    [InlineData(2, 10)]
    [InlineData(3, 20)]
    [InlineData(4, 40)]
    [InlineData(5, 60)]
    [InlineData(1_000_000, 60)]
    public void Each_lock_is_twice_as_long_up_to_an_hour(int number, int minutes) =>
        Assert.Equal(TimeSpan.FromMinutes(minutes), new LockoutRule().LockNumber(number));

    [Fact]
    public void Names_that_nobody_has_are_counted_in_bounded_room()
    {
        var names = new UnknownNames(most: 3);
        for (var n = 0; n < 10; n++)
        {
            names.Set($"N{n}", new Attempts(n, 0, null));
        }

        Assert.Equal([0, 7, 8, 9], new[] { "N6", "n7", "N8", "N9" }.Select(name => names.Of(name).Wrong));
    }
}
