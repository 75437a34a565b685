using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Served;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>
/// Two lanes at once on one service: a normal exam at an instrument with a light sensor, and one at an instrument that tells nothing of
/// the room. The keys of both are counted.
/// </summary>
public sealed class TwoLanesTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    private static readonly InstrumentModel WithoutSensor = InstrumentModels.QuayA with
    {
        Abilities = InstrumentModels.QuayA.Abilities & ~InstrumentAbilities.LightSensor,
    };

    [Fact]
    public Task Two_normal_exams_at_once_take_6_keys_with_a_light_sensor_and_8_without() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            [InstrumentModels.QuayA, WithoutSensor],
            async stage =>
            {
                var keys = await Task.WhenAll(
                    ExamineAsync(stage, 0, "Q-1001", People.Examiner),
                    ExamineAsync(stage, 1, "Q-1002", People.OtherExaminer)
                );
                stage.TellKeys("a normal exam with a light sensor", keys[0]);
                stage.TellKeys("a normal exam without one", keys[1]);
                Assert.InRange(keys[0].Length, 1, 6);
                Assert.InRange(keys[1].Length, 1, 8);
                Assert.Equal(2, (await stage.ListAsync()).Length);
            }
        );

    private static async Task<string[]> ExamineAsync(ExamStage stage, int index, string patient, string who)
    {
        var lane = stage.Lanes[index];
        var page = await stage.SitDownAsync(lane, who);
        var sitting = new Sitting(stage, lane, page, patient);
        await sitting.ChooseAsync();
        Assert.Equal(index == 1, (await page.AskedAsync()).Accepts == "light");
        using var end = new CancellationTokenSource(TimeSpan.FromMinutes(5));
        var room = index == 1 ? RoomKeys.PressAsync(page, lane, end.Token) : Task.CompletedTask;
        await sitting.ExamineAsync(ExamStage.Named("normal"), new KeyedVoice(page));
        await room;
        var shown = await sitting.RecordAsync();
        var summary = shown.GetProperty("summary");
        Assert.Equal(who, summary.GetProperty("examiner").GetString());
        Assert.Contains(
            "no RAPD seen (short and long dwell)",
            summary.GetProperty("chartLine").GetString(),
            StringComparison.Ordinal
        );
        return [.. page.Pressed];
    }
}
