using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>
/// Whether a run can be begun as it was asked for. The journal holds it for good, and all that is computed from a run relies on this.
/// </summary>
public static class BenchRunCheck
{
    /// <summary>Looks at a run before it begins.</summary>
    /// <param name="begun">What is asked for.</param>
    /// <returns>Why it cannot be begun, for a person, with what to do; null if it can.</returns>
    public static string? WhyNot(BenchRunBegun begun)
    {
        ArgumentNullException.ThrowIfNull(begun);
        if (begun.StraightnessMillimetres is not (>= 0 and < 1))
            return "The stated straightness is no uncertainty from 0 to 1 mm. Put it right, or leave it at 0.";
        if (begun.TemperatureCelsius is { } celsius && !double.IsFinite(celsius))
            return "The temperature is no number. Put it right, or leave it out.";
        if (
            begun.Rule
            is { MaximumPermissibleErrorMillimetres: not (> 0 and < 20) }
                or { GuardBandFactor: not (>= 0 and < 100) }
        )
            return "The decision rule needs a limit above 0 and a guard band of 0 or more. Put the settings right.";
        return begun.Kind switch
        {
            BenchRunKind.Calibration or BenchRunKind.QuickCheck => OfDiscs(begun),
            BenchRunKind.LiveRepeatability => OfPerson(begun),
            _ => null,
        };
    }

    private static string? OfDiscs(BenchRunBegun begun)
    {
        if (begun.DiscSet is not { } set)
            return "A set of reference discs is needed. Enter one first, and name it.";
        if (DiscSetCheck.Of(set) is { Count: > 0 } faults)
            return $"The set of discs '{set.Name}' cannot be used ({string.Join(", ", faults)}). Enter it anew.";
        if (begun.Plan.Count == 0)
            return "The plan names nothing to measure. Ask for at least one reading of a disc.";
        if (begun.Plan.FirstOrDefault(step => set.Find(step.Disc ?? "") is null) is { Eye: not 0 } other)
            return $"The set '{set.Name}' has no disc '{other.Disc}'. Plan the run with the discs of its set.";
        return begun.Kind == BenchRunKind.QuickCheck && begun.Plan.Any(step => step.Disc != begun.Plan[0].Disc)
            ? "A quick check reads one disc only. Choose one, or calibrate."
            : null;
    }

    private static string? OfPerson(BenchRunBegun begun)
    {
        if (begun.Plan.Count == 0)
            return "The plan names nothing to measure. Ask for settings of both eyes in both lights.";
        return begun.Plan.Any(step => step.Disc is not null || step.Light is null)
            ? "A study on a person needs the room light of every setting, and no disc. Plan it anew."
            : null;
    }
}
