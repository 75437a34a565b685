using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Showing;

/// <summary>What is asked for, in words for the examiner.</summary>
internal static class AskedWords
{
    /// <summary>The one thing asked for now.</summary>
    public static string Of(Asked asked) =>
        ClinicText.Showing.Of("Asked", asked.For, Eye(asked.Eye), ClinicWords.Blocks[asked.Block]);

    /// <summary>A step whose turn has not come, or was passed over.</summary>
    public static string Later(StepStatus step)
    {
        var name = HouseWords.Within(step.Step);
        var isSkipped = step.State == StepState.Skipped;
        if (step.Missing.Length != 1)
        {
            return isSkipped
                ? ClinicText.Showing.Get("Later.LeftOut", name)
                : ClinicText.Showing.Get("Later.ToCome", name);
        }

        var eye = Eye(step.Missing[0]);
        return isSkipped
            ? ClinicText.Showing.Get("Later.LeftOutOfEye", name, eye)
            : ClinicText.Showing.Get("Later.ToComeOfEye", name, eye);
    }

    /// <summary>A reminder.</summary>
    public static string Of(Reminder reminder) =>
        ClinicText.Showing.Of(
            "Reminder",
            reminder.Kind,
            Eye(reminder.Eye),
            ClinicWords.Blocks[reminder.Block],
            reminder.Step is { } step ? HouseWords.Within(step) : ""
        );

    private static string Eye(Eye? eye) => eye is { } one ? HouseWords.Of(one) : ClinicText.Showing["BothEyes"];
}
