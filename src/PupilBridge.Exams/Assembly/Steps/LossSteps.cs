using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>Events that are lost for good: the gap is shown, and nothing is taken to hold that may have changed in it.</summary>
internal static class LossSteps
{
    /// <summary>The instrument's own event says that its memory lost events.</summary>
    public static void Told(Workspace work, Happening happening) =>
        Lost(
            work,
            happening.Serial,
            happening.When,
            $"events {happening.Event.FirstLost} to {happening.EventSequence}: the instrument's memory was full"
        );

    /// <summary>The link found that events will never come.</summary>
    public static void Journalled(Workspace work, EventsLost lost)
    {
        var lane = work.Lane(lost.Serial);
        if (lost.Last is { } counted && EventOrder.IsTaken(lane, lost.Boot, counted))
        {
            work.Ignore($"The gap {lost.First} to {counted} of boot {lost.Boot} was taken already.");
            return;
        }

        var when = new Moment(work.Sequence, lost.At, 0, lost.Boot, null);
        if (lane.Boot != lost.Boot && !lane.EndedBoots.Any(b => b.Boot == lost.Boot))
            EventOrder.Restart(work, lane, when);
        var span = lost.Last is { } end ? $"events {lost.First} to {end}" : $"from event {lost.First} on";
        Lost(work, lost.Serial, when, $"{span}: {Words(lost.Cause)}");
        lane = work.Lane(lost.Serial);
        // An open end says nothing of numbers: whatever still comes of that boot is new.
        if (lane.Boot == lost.Boot && lost.Last is { } last)
            work.Put(lane with { LastEvent = Math.Max(lane.LastEvent, last) });
    }

    /// <summary>Shows a gap in every exam that it may concern, and forgets what may have changed in it.</summary>
    public static void Lost(Workspace work, SerialNumber serial, Moment when, string detail)
    {
        var lane = work.Lane(serial);
        foreach (var exam in Concerned(lane))
        {
            work.Change(exam, e => e.WithIncident(IncidentKind.EventsLost, when, detail).WithEntry(when.Sequence));
        }

        Forget(work, serial, when);
    }

    /// <summary>Nothing that the instrument said must still hold: half-made pairs end, the conditions are unknown.</summary>
    public static void Forget(Workspace work, SerialNumber serial, Moment when)
    {
        RestSteps.Refuse(work, serial, PairRefusalReason.EventsLost, when.Sequence);
        MarkSteps.Refuse(work, serial, PairRefusalReason.EventsLost, when.Sequence);
        LampSteps.LoseEnds(work, serial);
        ConditionSteps.Unknown(work, serial, when);
        work.Put(
            work.Lane(serial) with
            {
                Dial = null,
                LastOff = null,
                Pending = null,
                HomeSince = new() { Right = null, Left = null },
            }
        );
    }

    // A gap before the first event of the open exam may hold the end of the one before.
    private static IEnumerable<ExamId> Concerned(LaneState lane)
    {
        if (lane.OpenExam is { } open)
            yield return open;
        if ((lane.OpenExam is null || !lane.OpenExamHasEvents) && lane.Recent.Count > 0)
            yield return lane.Recent[^1].Exam;
    }

    private static string Words(LossCause cause) =>
        cause switch
        {
            LossCause.MemoryOverflow => "the instrument's memory was full",
            LossCause.NoLongerKept => "the instrument no longer keeps them",
            LossCause.BootEnded => "the instrument was switched off or started anew",
            LossCause.TakenByAnotherHost => "another host had acknowledged them",
            LossCause.MissingFromJournal =>
                "acknowledged before, but not in this journal: it was restored from a backup, or lost its end",
            _ => "no cause is known",
        };
}
