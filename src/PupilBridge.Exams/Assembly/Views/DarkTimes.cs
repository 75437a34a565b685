using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>How long each eye has been in the dark in a running exam.</summary>
/// <param name="Since">
/// Since when: the room became dim, or the last lamp went off in either eye, since light in one eye narrows both pupils. Null
/// where the eye is not in the dark, or nobody can know.
/// </param>
/// <param name="SettledAfterMilliseconds">After this time an eye is taken as settled, by the exam's profile, in ms.</param>
public sealed record DarkTimes(PerEye<Moment?> Since, int SettledAfterMilliseconds)
{
    /// <summary>The times in the dark of a running exam.</summary>
    /// <param name="lane">The instrument's state.</param>
    /// <param name="exam">The exam.</param>
    /// <returns>The times; none for an exam that does not take this instrument's events.</returns>
    public static DarkTimes Of(LaneState lane, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(lane);
        ArgumentNullException.ThrowIfNull(exam);
        var isRunning = exam.TakesEvents && lane.OpenExam == exam.Id && !lane.IsOff;
        var since = isRunning && lane.Light?.Light == RoomLight.Dim ? lane.DarkSince : null;
        return new(new() { Right = since, Left = since }, exam.Profile.Light.DarkSettledAfterMilliseconds);
    }

    /// <summary>How long an eye has been in the dark at some moment.</summary>
    /// <param name="eye">The eye.</param>
    /// <param name="now">The moment.</param>
    /// <returns>Milliseconds, 0 or more; null if it is not in the dark.</returns>
    public long? MillisecondsAt(Eye eye, UtcTime now) =>
        Since[eye] is { } since ? Math.Max(0, now.MillisecondsSince(since.At)) : null;

    /// <summary>Whether an eye has been in the dark for long enough to have settled.</summary>
    /// <param name="eye">The eye.</param>
    /// <param name="now">The moment.</param>
    /// <returns>True if so; false also where nobody can know.</returns>
    public bool IsSettledAt(Eye eye, UtcTime now) => MillisecondsAt(eye, now) >= SettledAfterMilliseconds;
}
