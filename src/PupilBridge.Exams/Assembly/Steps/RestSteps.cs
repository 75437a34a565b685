using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Captures without mark keys. The nasal edge is set by moving the whole instrument while the scale is at home, the temporal
/// edge by sliding: the pair is home and the last rest before the scale comes home, the other scale moves, or light, mode or
/// fixation change.
/// </summary>
internal static class RestSteps
{
    public static void Rested(Workspace work, Happening happening, ExamId? exam)
    {
        var lane = work.Lane(happening.Serial);
        if (lane.Identity is not { } identity)
        {
            work.Change(exam, e => WithoutIdentity(e, happening.When));
            return;
        }

        var eye = happening.Event.Eye;
        var isHome = ScaleHome.IsHome(identity.Scales[eye], happening.Event.Position);
        if (isHome)
            work.Put(lane with { HomeSince = lane.HomeSince.With(eye, happening.When) });
        NoteHome(work, exam, eye, happening.Event.Position - identity.Scales[eye].Home);
        if (identity.Abilities.HasFlag(InstrumentAbilities.MarkKeys))
            return;
        if (isHome || lane.Rest?.Eye != eye)
            Complete(work, happening.Serial, happening.When.Sequence);
        if (!isHome && exam is { } id)
            Consider(work, happening, id, identity.Scales[eye]);
    }

    /// <summary>The scale goes on: what it rested at last is the temporal edge.</summary>
    public static void Complete(Workspace work, SerialNumber serial, JournalSequence by)
    {
        var lane = work.Lane(serial);
        if (lane.Rest is not { } rest)
            return;
        work.Change(rest.Exam, exam => Completed(exam, lane, rest, by));
        work.Put(lane with { Rest = null });
    }

    /// <summary>The half-made pair ends without a capture.</summary>
    public static void Refuse(Workspace work, SerialNumber serial, PairRefusalReason reason, JournalSequence by)
    {
        var lane = work.Lane(serial);
        if (lane.Rest is not { } rest)
            return;
        var pair = new RefusedPair(rest.Eye, reason, null, rest.Away, by);
        work.Change(rest.Exam, exam => exam.WithRefused(pair));
        work.Put(lane with { Rest = null });
    }

    private static Exam Completed(Exam exam, LaneState lane, RestUnderWay rest, JournalSequence by)
    {
        var home = new EdgeReading(lane.Identity!.Scales[rest.Eye].Home, lane.HomeSince[rest.Eye] ?? rest.FirstAway);
        if (rest.Away.When.MillisecondsSince(rest.FirstAway) > exam.Profile.Captures.PairWithinMilliseconds)
            return exam.WithRefused(new(rest.Eye, PairRefusalReason.TooLong, home, rest.Away, by));
        return CaptureMaking.With(exam, lane, rest.Eye, CaptureManner.NasalEdgeAtHome, home, rest.Away, by);
    }

    private static void Consider(Workspace work, Happening happening, ExamId id, ScaleDescription scale)
    {
        var lane = work.Lane(happening.Serial);
        if (work.Find(id) is not { } exam)
            return;
        var eye = happening.Event.Eye;
        var away = new EdgeReading(happening.Event.Position, happening.When);
        var difference = new EdgePair(scale.Home, away.Position, scale.Direction).Difference;
        var refusal = CaptureMaking.WhyNotNow(lane) ?? CaptureMaking.WhyNoPupil(difference, exam.Profile.Captures);
        if (refusal is { } reason)
        {
            // Such a rest is none: what the scale rested at before it still stands.
            work.Put(exam.WithRefused(new(eye, reason, null, away, happening.When.Sequence)));
            return;
        }

        var first = lane.Rest is { } before && before.Exam == id ? before.FirstAway : happening.When;
        work.Put(lane with { Rest = new(id, eye, first, away) });
    }

    private static void NoteHome(Workspace work, ExamId? exam, Eye eye, Micrometres off)
    {
        if (Math.Abs(off.Value) <= HomeRests.WithinMicrometres)
            work.Change(exam, e => e with { HomeRests = e.HomeRests.With(eye, e.HomeRests[eye].With(off.Value)) });
    }

    private static Exam WithoutIdentity(Exam exam, Moment when) =>
        exam.Incidents.Any(i => i.Kind == IncidentKind.IdentityUnknown)
            ? exam
            : exam.WithIncident(IncidentKind.IdentityUnknown, when, "");
}
