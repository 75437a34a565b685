using System.Collections.Immutable;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Clinic.Lanes;

/// <summary>What an exam lacks before it is complete.</summary>
internal static class MissingWords
{
    /// <summary>One line for each thing.</summary>
    public static IReadOnlyList<string> Of(Exam exam, ImmutableArray<StepStatus> steps)
    {
        var lacking = Lacking(steps).Select(Of);
        return exam.Patient is null ? [ClinicText.Lane.Get("Missing.Patient"), .. lacking] : [.. lacking];
    }

    /// <summary>The steps that lack something and were not accepted as not examined.</summary>
    public static IEnumerable<StepStatus> Lacking(ImmutableArray<StepStatus> steps) =>
        steps.Where(step => step.State is StepState.Due or StepState.NotYet or StepState.Skipped);

    /// <summary>The steps that were accepted as not examined, one line for each.</summary>
    public static IReadOnlyList<string> Accepted(ImmutableArray<StepStatus> steps) =>
        [.. steps.Where(step => step.State == StepState.AcceptedNotExamined).Select(Of)];

    private static string Of(StepStatus step)
    {
        var name = HouseWords.Of(step.Step);
        return step.Missing.Length == 1 && step.Step is not (ExamStep.SwingShort or ExamStep.SwingLong)
            ? ClinicText.Lane.Get("Missing.StepOfEye", name, HouseWords.Of(step.Missing[0]))
            : ClinicText.Lane.Get("Missing.Step", name);
    }
}
