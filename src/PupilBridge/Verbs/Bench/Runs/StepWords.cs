using PupilBridge.Clinic.Views;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary>What is asked for on the bench, in a few words.</summary>
internal static class StepWords
{
    /// <summary>One reading that is asked for.</summary>
    /// <param name="step">The step.</param>
    /// <returns>For example <c>OD, disc D4 (4.002 mm)</c>.</returns>
    public static string Of(BenchStepView step)
    {
        var light = step.Light is { } room ? $", {room} room" : "";
        return step is { Disc: { } disc, DiameterMillimetres: { } diameter }
            ? $"{step.Eye}, disc {disc} ({BenchNumbers.Millimetres(diameter)} mm){light}"
            : $"{step.Eye}, the pupil{light}";
    }
}
