using PupilBridge.Scenarios.Service;

namespace PupilBridge.Browser.Lanes;

/// <summary>Says what the room light is, by key, at an instrument that has neither sensor nor switch, whenever the lane asks.</summary>
public static class RoomKeys
{
    private const double BrightLux = 50;

    /// <summary>Looks at the room and presses the keys, first for bright and then for dim, when the lane asks for light.</summary>
    /// <param name="lane">The lane's page.</param>
    /// <param name="instrument">The instrument, in whose room the light is.</param>
    /// <param name="cancel">Ends it.</param>
    public static async Task PressAsync(LanePage lane, SteeredLane instrument, CancellationToken cancel)
    {
        await SayAsync(lane, "NumpadMultiply").ConfigureAwait(false);
        await instrument.UntilAsync(i => i.RoomLux < BrightLux, cancel).ConfigureAwait(false);
        await SayAsync(lane, "NumpadDivide").ConfigureAwait(false);
    }

    private static Task SayAsync(LanePage lane, string key) =>
        lane.AnswerAsync(key, asked => asked.Accepts == "light", $"the room light, for {key}");
}
