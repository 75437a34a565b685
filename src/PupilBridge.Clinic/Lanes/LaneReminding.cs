using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;

namespace PupilBridge.Clinic.Lanes;

/// <summary>Reminders on a lane.</summary>
internal static class LaneReminding
{
    /// <summary>The reminders of an exam.</summary>
    public static IReadOnlyList<LaneReminder> Of(Exam exam) =>
        [
            .. Reminders
                .Of(exam)
                .Select(reminder => new LaneReminder(
                    Shown.Word(reminder.Kind),
                    AskedWords.Of(reminder),
                    IsUrgent(reminder.Kind)
                )),
        ];

    /// <summary>
    /// A sound belongs to what is lost if nobody acts now: what comes later can be read later.
    /// </summary>
    private static bool IsUrgent(ReminderKind kind) =>
        kind
            is ReminderKind.StepLeftOut
                or ReminderKind.NearDue
                or ReminderKind.MeasureFirstEyeAgain
                or ReminderKind.FixationLeftNear
                or ReminderKind.RepeatSwinging;
}
