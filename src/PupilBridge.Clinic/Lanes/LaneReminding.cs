using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Lanes;

/// <summary>Reminders on a lane, as far as the clinic wants them.</summary>
internal static class LaneReminding
{
    /// <summary>The reminders of an exam.</summary>
    public static IReadOnlyList<LaneReminder> Of(Exam exam, LaneSettings settings) => Of(Reminders.Of(exam), settings);

    /// <summary>The reminders of a lane as a whole, which come by themselves as time passes.</summary>
    /// <param name="lane">What the journal knows of the instrument; null if it never mentioned it.</param>
    /// <param name="open">The exam at work; null if there is none.</param>
    /// <param name="now">The present time.</param>
    /// <param name="settings">What is wanted.</param>
    /// <param name="before">What was shown last: the same object comes again where it is still true.</param>
    public static IReadOnlyList<LaneReminder> Of(
        LaneState? lane,
        Exam? open,
        DateTimeOffset now,
        LaneSettings settings,
        IReadOnlyList<LaneReminder> before
    )
    {
        if (lane is null)
        {
            return before.Count == 0 ? before : [];
        }

        var reminders = Of(LaneReminders.Of(lane, open, UtcTime.From(now), settings.Rules), settings);
        return reminders.SequenceEqual(before) ? before : reminders;
    }

    private static List<LaneReminder> Of(IEnumerable<Reminder> reminders, LaneSettings settings) =>
        [
            .. reminders
                .Where(reminder => !settings.Quiet.Contains(reminder.Kind))
                .Select(reminder => new LaneReminder(
                    Shown.Word(reminder.Kind),
                    AskedWords.Of(reminder),
                    IsUrgent(reminder.Kind)
                )),
        ];

    /// <summary>A sound belongs to what is lost if nobody acts now: the rest can be read later.</summary>
    private static bool IsUrgent(ReminderKind kind) =>
        kind
            is ReminderKind.StepLeftOut
                or ReminderKind.NearDue
                or ReminderKind.MeasureFirstEyeAgain
                or ReminderKind.DimTakenTooSoon
                or ReminderKind.FixationLeftNear
                or ReminderKind.RepeatSwinging
                or ReminderKind.InstrumentLeftOn;
}
