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
public sealed record DarkTimes(PerEye<Moment?> Since)
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
        return new(new PerEye<Moment?> { Right = since, Left = since });
    }
}
