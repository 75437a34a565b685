using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Keeps the order of an instrument's events: boots one after the other, numbers without holes. The link and the journal
/// see to it already; a hole that stands in the journal all the same is shown as one.
/// </summary>
internal static class EventOrder
{
    public static bool IsTaken(LaneState lane, BootNumber boot, long sequence)
    {
        if (lane.Boot == boot)
            return sequence <= lane.LastEvent;
        foreach (var ended in lane.EndedBoots)
        {
            if (ended.Boot == boot && sequence <= ended.LastEvent)
                return true;
        }

        return false;
    }

    public static void Advance(Workspace work, Happening happening)
    {
        var lane = work.Lane(happening.Serial);
        if (lane.Boot != happening.When.Boot)
            Restart(work, lane, happening.When);
        lane = work.Lane(happening.Serial);
        // An event that itself stands for lost ones fills the hole before it.
        var first =
            happening.Event.Kind == InstrumentEventKind.EventsLost
                ? Math.Min(happening.Event.FirstLost, happening.EventSequence)
                : happening.EventSequence;
        if (first > lane.LastEvent + 1)
        {
            var detail = $"events {lane.LastEvent + 1} to {first - 1} are not in the journal";
            LossSteps.Lost(work, happening.Serial, happening.When, detail);
        }

        work.Put(work.Lane(happening.Serial) with { LastEvent = happening.EventSequence, LastHeard = happening.When });
    }

    /// <summary>The instrument runs in another boot than before: nothing that held must still hold.</summary>
    public static void Restart(Workspace work, LaneState lane, Moment when)
    {
        if (lane.Boot is { } before)
        {
            if (!lane.IsOff)
            {
                work.Change(
                    lane.OpenExam,
                    e => e.WithIncident(IncidentKind.Restarted, when, $"boot {before}, then boot {when.Boot}")
                );
            }

            LossSteps.Forget(work, lane.Serial, when);
            lane = work.Lane(lane.Serial);
            var ended = lane.EndedBoots.Where(b => b.Boot != before).Add(new(before, lane.LastEvent));
            lane = lane with
            {
                EndedBoots = ended.Count > LaneState.KeptBoots ? [.. ended.Items[1..]] : ended,
                IsFresh = true,
            };
        }

        var known = lane.EndedBoots.FirstOrDefault(b => b.Boot == when.Boot);
        work.Put(lane with { Boot = when.Boot, BootSince = when, LastEvent = known?.LastEvent ?? 0, IsOff = false });
    }
}
