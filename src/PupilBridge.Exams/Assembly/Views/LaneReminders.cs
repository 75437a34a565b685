using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>After how long a lane is reminded of. All defaults are ours.</summary>
public sealed record LaneReminderRules
{
    /// <summary>
    /// An instrument whose dial stands in <c>idle</c>, or is not known, counts as left on after this time without an event
    /// since the last exam, in milliseconds. Ours: 2 minutes.
    /// </summary>
    public int LeftOnAfterMilliseconds { get; init; } = 120_000;

    /// <summary>The same where the dial stands elsewhere, so that scales or lamps are at work. Ours: 30 s.</summary>
    public int LeftOnAtWorkAfterMilliseconds { get; init; } = 30_000;

    /// <summary>
    /// Near fixation that goes on after the exam it was for, or into the next one, is reminded of after this time, in
    /// milliseconds. Ours: 5 s.
    /// </summary>
    public int LeftNearAfterMilliseconds { get; init; } = 5_000;

    /// <summary>The rules that ship with the program.</summary>
    public static LaneReminderRules Default { get; } = new();
}

/// <summary>What is worth reminding of about an instrument between its exams, in a fixed order.</summary>
public static class LaneReminders
{
    /// <summary>The reminders of a lane at one moment.</summary>
    /// <param name="lane">The instrument's state.</param>
    /// <param name="open">The exam that takes its events; null if there is none.</param>
    /// <param name="now">The time now.</param>
    /// <param name="rules">After how long; null for <see cref="LaneReminderRules.Default"/>.</param>
    /// <returns>The reminders; empty if there are none, and where nobody can know whether the instrument is on.</returns>
    public static ImmutableArray<Reminder> Of(LaneState lane, Exam? open, UtcTime now, LaneReminderRules? rules = null)
    {
        ArgumentNullException.ThrowIfNull(lane);
        rules ??= LaneReminderRules.Default;
        if (lane.IsOff || lane.Line != LineState.Connected)
            return [];
        var reminders = ImmutableArray.CreateBuilder<Reminder>();
        if (open is null && IsLeftOn(lane, now, rules))
            reminders.Add(new(ReminderKind.InstrumentLeftOn, null, null, Block.None));
        if (IsLeftNear(lane, open, now, rules))
            reminders.Add(new(ReminderKind.FixationLeftNear, null, null, Block.None));
        return reminders.ToImmutable();
    }

    private static bool IsLeftOn(LaneState lane, UtcTime now, LaneReminderRules rules)
    {
        // An instrument that was switched on anew waits for its next patient.
        if (lane.Recent.Latest is not { } last || lane.BootSince?.At > last.To.At)
            return false;
        var quietSince = lane.LastHeard is { } heard && heard.At > last.To.At ? heard.At : last.To.At;
        var isAtWork = lane.Dial is not (null or { Mode: InstrumentMode.Idle });
        var limit = isAtWork ? rules.LeftOnAtWorkAfterMilliseconds : rules.LeftOnAfterMilliseconds;
        return now.MillisecondsSince(quietSince) >= limit;
    }

    private static bool IsLeftNear(LaneState lane, Exam? open, UtcTime now, LaneReminderRules rules)
    {
        if (lane.Fixation is not { Fixation: Fixation.Near } near || lane.Recent.Latest is not { } last)
            return false;
        // What is said within an exam is the exam's own matter.
        var before = open?.Opening.When.At ?? now;
        if (near.When.At > before || lane.Dial?.Block == Block.Near)
            return false;
        var since = near.When.At > last.To.At ? near.When.At : last.To.At;
        return now.MillisecondsSince(since) >= rules.LeftNearAfterMilliseconds;
    }
}
