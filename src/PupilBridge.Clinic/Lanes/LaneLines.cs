using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Lanes;

/// <summary>The state of the line to an instrument, in a word and for a person.</summary>
internal static class LaneLines
{
    /// <summary>The instrument answers.</summary>
    public const string Connected = "connected";

    /// <summary>It said that it was switched off.</summary>
    public const string Off = "off";

    private const string Lost = "lost";
    private const string Stalled = "stalled";
    private const string NotSeen = "not-seen";

    /// <summary>The state.</summary>
    public static (string Word, string Words) Of(LaneSight sight)
    {
        var word = Word(sight);
        var serial = sight.Serial.Value;
        return (
            word,
            word switch
            {
                Connected => ClinicText.Lane.Get("Line.Connected"),
                Lost => WithPort(sight, ClinicText.Lane.Get("Line.Lost", serial)),
                Stalled => WithPort(sight, ClinicText.Lane.Get("Line.Stalled", serial)),
                Off => ClinicText.Lane.Get("Line.Off", serial),
                _ => WithPort(sight, ClinicText.Lane.Get("Line.NotSeen", serial)),
            }
        );
    }

    /// <summary>Whether an instrument was switched off in good order and did not start anew since.</summary>
    /// <param name="lane">What the journal knows of it; null if it never mentioned it.</param>
    /// <param name="live">What it says just now; null if it was not met since the service started.</param>
    public static bool IsOff(LaneState? lane, LiveInstrument? live) =>
        lane is { IsOff: true } && (live is null || live.Boot == lane.Boot);

    private static string Word(LaneSight sight)
    {
        var (live, lane) = (sight.Live, sight.Lane);
        return IsOff(lane, live) ? Off
            : live is null ? NotSeen
            : live.IsConnected ? Connected
            : lane?.Line == LineState.Stalled ? Stalled
            : Lost;
    }

    /// <summary>What the port says of itself tells more: that another program holds it, for instance.</summary>
    private static string WithPort(LaneSight sight, string words) =>
        string.IsNullOrEmpty(sight.Port?.Message) ? words : $"{words} {sight.Port.Message}";
}
