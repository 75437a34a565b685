using PupilBridge.Scenarios.Sending;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>Everything that may go wrong at once, by seed.</summary>
public sealed class StormTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task With_a_server_that_honours_conditions_each_record_arrives_once_and_in_order_per_patient(int seed)
    {
        var result = await new OutboxStorm(Path.GetTempPath(), seed).RunAsync(
            60,
            honours: true,
            TimeSpan.FromMinutes(3)
        );

        Assert.Equal((60, 60, 0, 0, 0), (result.Records, result.Sent, result.Doubled, result.Lost, result.OutOfOrder));
        Assert.True(result.Posts > 60, "Nothing was ever tried again, so nothing went wrong.");
        Assert.True(result.Faults.Count >= 5, $"Only these went wrong: {string.Join(", ", result.Faults.Keys)}.");
    }
}
