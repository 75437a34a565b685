using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>What the room light and the fixation are said to be, by a sensor, a switch or a person. Never inferred.</summary>
internal static class ConditionSteps
{
    public static void RoomTold(Workspace work, Happening happening, ExamId? exam)
    {
        var happened = happening.Event;
        var isMeasured = happened.Room == RoomLightLevel.Measured;
        var rules = (exam is { } id ? work.Find(id)?.Profile : null)?.Light ?? work.Book.Profile.Light;
        RoomLight? light = happened.Room switch
        {
            RoomLightLevel.Bright => RoomLight.Bright,
            RoomLightLevel.Dim => RoomLight.Dim,
            RoomLightLevel.Measured => Classify(happened.RoomMillilux, rules),
            _ => null,
        };
        long? millilux = isMeasured ? happened.RoomMillilux : null;
        var said = new LightSaid(happening.When, light, millilux, ConditionSource.Instrument, null);
        LightBecomes(work, happening.Serial, exam, said);
    }

    public static void FixationTold(Workspace work, Happening happening, ExamId? exam)
    {
        Fixation? fixation = happening.Event.Fixation switch
        {
            FixationDistance.Far => Fixation.Far,
            FixationDistance.Near => Fixation.Near,
            _ => null,
        };
        FixationBecomes(work, happening.Serial, exam, new(happening.When, fixation, ConditionSource.Instrument, null));
    }

    public static void LightBecomes(Workspace work, SerialNumber serial, ExamId? exam, LightSaid said)
    {
        var lane = work.Lane(serial);
        if (lane.Light is { } before && before.Light == said.Light && before.SaidBy == said.SaidBy)
        {
            // A sensor that flickers within the same light changes nothing but its last reading.
            work.Put(lane with { Millilux = said.Millilux });
            return;
        }

        if (lane.Light?.Light != said.Light)
        {
            RestSteps.Complete(work, serial, said.When.Sequence);
            MarkSteps.Refuse(work, serial, PairRefusalReason.LightChanged, said.When.Sequence);
        }

        lane = work.Lane(serial);
        var isLit = lane.Lamps.Right is not null || lane.Lamps.Left is not null;
        var darkSince = said.Light == RoomLight.Dim && !isLit ? lane.DarkSince ?? said.When : null;
        work.Put(lane with { Light = said, Millilux = said.Millilux, DarkSince = darkSince });
        work.Change(exam, e => e with { Light = e.Light.Add(said) });
    }

    public static void FixationBecomes(Workspace work, SerialNumber serial, ExamId? exam, FixationSaid said)
    {
        var lane = work.Lane(serial);
        if (lane.Fixation?.Fixation != said.Fixation)
        {
            RestSteps.Complete(work, serial, said.When.Sequence);
            MarkSteps.Refuse(work, serial, PairRefusalReason.FixationChanged, said.When.Sequence);
        }

        work.Put(work.Lane(serial) with { Fixation = said });
        work.Change(exam, e => e with { Fixations = e.Fixations.Add(said) });
    }

    /// <summary>Events were lost: what was said may hold no longer.</summary>
    public static void Unknown(Workspace work, SerialNumber serial, Moment when)
    {
        var lane = work.Lane(serial);
        if (lane.Light is { SaidBy: not ConditionSource.Lost })
            LightBecomes(work, serial, lane.OpenExam, new(when, null, null, ConditionSource.Lost, null));
        if (lane.Fixation is { SaidBy: not ConditionSource.Lost })
            FixationBecomes(work, serial, lane.OpenExam, new(when, null, ConditionSource.Lost, null));
        work.Put(work.Lane(serial) with { DarkSince = null, Millilux = null });
    }

    private static RoomLight? Classify(long millilux, LightRules rules)
    {
        if (millilux <= rules.DimAtMostMillilux)
            return RoomLight.Dim;
        return millilux >= rules.BrightAtLeastMillilux ? RoomLight.Bright : null;
    }
}
