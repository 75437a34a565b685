using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Instrument;
using ChartWords = PupilBridge.Exams.Notation.Words;

namespace PupilBridge.Clinic.Showing;

/// <summary>What is asked for, in words for the examiner.</summary>
internal static class AskedWords
{
    /// <summary>The one thing asked for now.</summary>
    public static string Of(Asked asked) =>
        asked.For switch
        {
            AskedFor.SayRoomLight => "Say whether the room is bright or dim.",
            AskedFor.MakeBright => "Make the room bright.",
            AskedFor.MakeDim => "Make the room dim.",
            AskedFor.Measure => $"Measure the pupil of {Eye(asked.Eye)}.",
            AskedFor.JudgeShape => $"Judge the shape of the pupil of {Eye(asked.Eye)}: round or not round?",
            AskedFor.RunBlock => $"Run the {ClinicWords.Blocks[asked.Block]} block to its count.",
            AskedFor.GradeDirect => $"Grade the direct response of {Eye(asked.Eye)}, 0 to 4.",
            AskedFor.WhichConstrictsLess => "Short dwell: which eye constricts less, or are they alike?",
            AskedFor.WhichLetsGo => "Long dwell: which eye lets go, or are they alike?",
            AskedFor.LookNear => "Have the patient look near.",
            AskedFor.GradeNear => $"Grade the near response of {Eye(asked.Eye)}, 0 to 4.",
            AskedFor.GradeConsensual =>
                $"Optional: grade the consensual response to light in {Eye(asked.Eye)}, 0 to 4.",
            AskedFor.MakeReady => "Make the exam ready for review.",
            _ => "Nothing is asked for.",
        };

    /// <summary>A step whose turn has not come, or was passed over.</summary>
    public static string Later(StepStatus step)
    {
        var eyes = step.Missing.Length == 1 ? $" of {Eye(step.Missing[0])}" : "";
        var name = ChartWords.Of(step.Step);
        return step.State == StepState.Skipped ? $"Left out: {name}{eyes}." : $"Still to come: {name}{eyes}.";
    }

    /// <summary>A reminder.</summary>
    public static string Of(Reminder reminder) =>
        reminder.Kind switch
        {
            ReminderKind.StepLeftOut => $"{Step(reminder)} was left out.",
            ReminderKind.NearDue => "A direct response is poor: test the near response of both eyes, in like light.",
            ReminderKind.ConsensualWorthwhile => "The consensual response would tell more here; it is optional.",
            ReminderKind.MeasureFirstEyeAgain =>
                $"The dim sizes were taken after unequal times in the dark: measure {Eye(reminder.Eye)} again.",
            ReminderKind.LightNotSaid => "It is not said whether the room is bright or dim.",
            ReminderKind.FixationLeftNear => "Fixation is still near.",
            ReminderKind.TakenWithNearFixation => "Sizes or light tests were taken with near fixation.",
            ReminderKind.SameLightTwice => "The same eye was measured twice under the same light.",
            ReminderKind.BlockIncomplete => $"The {Block(reminder)} block did not reach its count.",
            ReminderKind.TimingOff => $"Stimuli of the {Block(reminder)} block were not surely within the tolerance.",
            ReminderKind.RepeatSwinging => "The outcomes of swinging disagree: repeat it.",
            ReminderKind.InstrumentLeftOn => "The instrument is still on: switch it off.",
            ReminderKind.DimTakenTooSoon =>
                $"The dim size of {Eye(reminder.Eye)} was taken before the eye had settled in the dark: measure it again.",
            ReminderKind.NearInOtherLight => "The near response was tested in another light than the direct one.",
            _ => Shown.Word(reminder.Kind),
        };

    private static string Eye(Eye? eye) => eye is { } one ? ChartWords.Of(one) : "both eyes";

    private static string Block(Reminder reminder) => ClinicWords.Blocks[reminder.Block];

    private static string Step(Reminder reminder) =>
        reminder.Step is { } step ? $"The step '{ChartWords.Of(step)}'" : "A step";
}
