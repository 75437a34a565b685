using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LaneRoomTests
{
    [Fact]
    public async Task Without_a_sensor_a_person_says_the_light_and_the_fixation()
    {
        using var lane = new LaneScene();
        var exam = await lane.Clinic.OpenAsync();
        var before = await lane.LookAsync();
        Assert.Equal(
            (null, null, true, null),
            (before.Room.Light, before.Room.Lux, before.Room.MustBeSaid, before.Fixation)
        );

        await lane.EnterAsync(lane.Clinic.Light(exam, "bright"));
        await lane.EnterAsync(lane.Clinic.Fixation(exam, "near"));

        var after = await lane.LookAsync();
        Assert.Equal(("bright", null, "near"), (after.Room.Light, after.Room.Lux, after.Fixation));
    }

    [Theory]
    [InlineData(400, "bright")]
    [InlineData(60, "between")]
    [InlineData(5, "dim")]
    public async Task A_sensor_tells_the_light_in_lux(int lux, string light)
    {
        using var lane = new LaneScene(InstrumentAbilities.MarkKeys | InstrumentAbilities.LightSensor);
        lane.Clinic.House.Add(lane.Instrument.Lux(lux));

        var room = (await lane.LookAsync()).Room;

        Assert.Equal((light, (double)lux, false), (room.Light, room.Lux, room.MustBeSaid));
    }

    [Fact]
    public async Task A_reading_that_flickers_is_shown_as_it_is_now()
    {
        using var lane = new LaneScene(InstrumentAbilities.LightSensor);
        lane.Clinic.House.Add(lane.Instrument.Lux(400));
        lane.Show(live => live with { Room = new LiveRoom(RoomLightLevel.Measured, 412_500) });

        Assert.Equal(412.5, (await lane.LookAsync()).Room.Lux);
    }

    [Fact]
    public async Task What_a_sensor_told_before_an_exam_was_opened_is_not_asked_for_again()
    {
        using var lane = new LaneScene(InstrumentAbilities.MarkKeys | InstrumentAbilities.LightSensor);
        lane.Clinic.House.Add(lane.Instrument.Lux(400));
        await lane.Clinic.OpenAsync();

        var board = await lane.LookAsync();

        Assert.Equal(("bright", "Measure OD (right)"), (board.Room.Light, board.Exam!.Prompt.Words));
        lane.Clinic.House.Add(lane.Instrument.Mark(Eye.Right, 4_000));
        Assert.Equal("bright", (await lane.ExamAsync()).Sizes[0].Light);
    }
}
