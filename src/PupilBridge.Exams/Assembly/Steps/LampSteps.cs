using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>A lamp went on or off: a stimulus begins or ends.</summary>
internal static class LampSteps
{
    public static void Switched(Workspace work, Happening happening, ExamId? exam)
    {
        RestSteps.Complete(work, happening.Serial, happening.When.Sequence);
        if (happening.Event.LampOn)
        {
            MarkSteps.Refuse(work, happening.Serial, PairRefusalReason.LampOn, happening.When.Sequence);
            On(work, happening, exam);
        }
        else
        {
            Off(work, happening, exam);
        }
    }

    /// <summary>Stimuli under way whose end will never be learnt.</summary>
    /// <param name="work">The scratch paper.</param>
    /// <param name="serial">The instrument.</param>
    /// <param name="only">Only those of this exam; null for all.</param>
    public static void LoseEnds(Workspace work, SerialNumber serial, ExamId? only = null)
    {
        foreach (var eye in EyeFacts.Both)
        {
            if (work.Lane(serial).Lamps[eye] is { } lamp && (only is null || lamp.Exam == only))
                LoseEnd(work, serial, eye, lamp);
        }
    }

    private static void On(Workspace work, Happening happening, ExamId? exam)
    {
        var (serial, eye, when) = (happening.Serial, happening.Event.Eye, happening.When);
        if (work.Lane(serial).Lamps[eye] is { } running)
        {
            LoseEnd(work, serial, eye, running);
            work.Change(exam, e => e.WithIncident(IncidentKind.LampOutOfTurn, when, "on while it was on"));
        }

        var lane = work.Lane(serial);
        var other = lane.Lamps[eye.Fellow()];
        work.Change(exam, e => e with { Stimuli = e.Stimuli.Add(StimulusTiming.Begin(e, lane, happening)) });
        if (other is not null)
        {
            work.Change(exam, e => StimulusTiming.Overlap(e, when.Sequence));
            work.Change(other.Exam, e => StimulusTiming.Overlap(e, other.On.Sequence));
            work.Change(exam, e => e.WithIncident(IncidentKind.LampOutOfTurn, when, "on while the other eye's was on"));
        }

        work.Put(lane with { Lamps = lane.Lamps.With(eye, new(when, exam)), DarkSince = null });
    }

    private static void Off(Workspace work, Happening happening, ExamId? exam)
    {
        var (eye, when) = (happening.Event.Eye, happening.When);
        var lane = work.Lane(happening.Serial);
        if (lane.Lamps[eye] is not { } lamp)
        {
            work.Change(exam, e => e.WithIncident(IncidentKind.LampOutOfTurn, when, "off while it was off"));
            return;
        }

        work.Change(lamp.Exam, e => StimulusTiming.End(e, lamp.On.Sequence, when));
        var lamps = lane.Lamps.With(eye, null);
        var isDark = lane.Light?.Light == RoomLight.Dim && lamps.Right is null && lamps.Left is null;
        work.Put(
            lane with
            {
                Lamps = lamps,
                LastOff = new(when, StimulusTiming.StayOf(lane.Dial), eye),
                DarkSince = isDark ? when : lane.DarkSince,
            }
        );
    }

    private static void LoseEnd(Workspace work, SerialNumber serial, Eye eye, LampUnderWay lamp)
    {
        work.Change(lamp.Exam, e => StimulusTiming.Lose(e, lamp.On.Sequence));
        var lane = work.Lane(serial);
        work.Put(lane with { Lamps = lane.Lamps.With(eye, null) });
    }
}
