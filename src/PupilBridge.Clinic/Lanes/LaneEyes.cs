using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>One eye's side of an instrument, live.</summary>
internal static class LaneEyes
{
    /// <summary>The eye.</summary>
    public static LaneEye Of(LaneSight sight, Eye eye, DateTimeOffset now)
    {
        var scale = sight.Live?.Scales[eye];
        var since = LitSince(sight, eye);
        return new LaneEye
        {
            PositionMicrometres = scale?.Position?.Value,
            IsMoving = scale?.IsMoving ?? false,
            LiveMillimetres = LiveDiameters.Of(sight, eye) is { } raw
                ? LaneBenches.Corrected(sight, eye, raw, now)
                : null,
            IsLit = since is not null,
            LitSince = since,
            DwellWantedMilliseconds = since is null ? null : DwellWanted(sight.Profile, LaneBoards.Dial(sight).Block),
            DarkSince = IsLit(sight) ? null : DarkSince(sight, eye),
            DarkSettledAfterMilliseconds = sight.Profile.Light.DarkSettledAfterMilliseconds,
        };
    }

    /// <summary>Whether a lamp is on in either eye.</summary>
    public static bool IsLit(LaneSight sight) =>
        LitSince(sight, Eye.Right) is not null || LitSince(sight, Eye.Left) is not null;

    /// <summary>
    /// Since when an eye is lit. A lamp that went on before the service started is known from the journal alone, and only until the
    /// instrument says something of it.
    /// </summary>
    private static DateTimeOffset? LitSince(LaneSight sight, Eye eye)
    {
        if (sight.Live?.Lamps[eye] is { } lamp && lamp != Worker.Live.LiveLamp.NotSeen)
        {
            return lamp.IsOn ? lamp.SinceAbout : null;
        }

        return sight.IsSameBoot && sight.Lane!.Lamps[eye] is { } recorded ? Shown.Time(recorded.On.At) : null;
    }

    private static int? DwellWanted(Profile profile, Block block) =>
        block switch
        {
            Block.Direct => profile.Direct.DwellMilliseconds,
            Block.SwingShort => profile.SwingShort.DwellMilliseconds,
            Block.SwingLong => profile.SwingLong.DwellMilliseconds,
            _ => null,
        };

    /// <summary>
    /// Since when an eye is in the dark. Light in one eye narrows both pupils, so that a lamp that is on takes it from both.
    /// </summary>
    private static DateTimeOffset? DarkSince(LaneSight sight, Eye eye) =>
        sight is { Lane: { } lane, Exam: { } exam } && DarkTimes.Of(lane, exam).Since[eye] is { } since
            ? Shown.Time(since.At)
            : null;
}
