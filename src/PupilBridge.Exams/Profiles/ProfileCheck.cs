using System.Collections.Immutable;

namespace PupilBridge.Exams.Profiles;

/// <summary>Whether a profile can be worked by. A clinic writes it by hand, so that every fault is named at once.</summary>
public static class ProfileCheck
{
    private const int Hour = 3_600_000;

    /// <summary>What is wrong with a profile.</summary>
    /// <param name="profile">The profile.</param>
    /// <returns>One sentence for each fault, each with the range that is possible; empty if there is none.</returns>
    public static ImmutableArray<string> Faults(Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return
        [
            .. Head(profile),
            .. Stimuli(profile),
            .. Sizes(profile),
            .. Light(profile.Light),
            .. Range("Closing.SilenceMilliseconds", profile.Closing.SilenceMilliseconds, 10_000, 24 * Hour),
            .. Range("Closing.PassedStopMilliseconds", profile.Closing.PassedStopMilliseconds, 0, 60_000),
            .. Range("Chart.EqualWithin", profile.Chart.EqualWithin.Value, 1, 5_000, " µm"),
            .. Legend(profile.Legend),
        ];
    }

    private static IEnumerable<string> Head(Profile profile)
    {
        if (string.IsNullOrWhiteSpace(profile.Name))
            yield return "Name is blank; give the profile a name.";
        foreach (var fault in Range("Version", profile.Version, 1, int.MaxValue))
            yield return fault;
        if (profile.Steps.Count == 0)
            yield return "Steps is empty; name at least one step.";
        if (profile.Steps.Distinct().Count() < profile.Steps.Count)
            yield return "Steps names a step twice; name each step once.";
        foreach (var step in profile.Steps.Where(step => !Enum.IsDefined(step)))
            yield return $"Steps names {step}, which is no step; the steps are {string.Join(", ", Enum.GetNames<ExamStep>())}.";
    }

    private static IEnumerable<string> Stimuli(Profile p) =>
        [
            .. Range("Direct.StimuliPerEye", p.Direct.StimuliPerEye, 1, 20),
            .. Range("Direct.DwellMilliseconds", p.Direct.DwellMilliseconds, 100, 60_000),
            .. Range("Direct.GapMilliseconds", p.Direct.GapMilliseconds, 0, 60_000),
            .. Train("SwingShort", p.SwingShort),
            .. Train("SwingLong", p.SwingLong),
            .. Range("DwellTolerancePercent", p.DwellTolerancePercent, 0, 100),
        ];

    private static IEnumerable<string> Train(string name, SwingTrain train) =>
        [
            .. Range($"{name}.DwellMilliseconds", train.DwellMilliseconds, 100, 60_000),
            .. Range($"{name}.Alternations", train.Alternations, 1, 50),
            .. Range($"{name}.MaxGapMilliseconds", train.MaxGapMilliseconds, 0, 60_000),
        ];

    private static IEnumerable<string> Sizes(Profile p)
    {
        var rules = p.Captures;
        if (rules.SmallestDiameter >= rules.LargestDiameter)
            yield return "Captures.SmallestDiameter is not below Captures.LargestDiameter.";
        string[] faults =
        [
            .. Range("Captures.PairWithinMilliseconds", rules.PairWithinMilliseconds, 1_000, Hour),
            .. Range("Captures.SmallestDiameter", rules.SmallestDiameter.Value, 0, 20_000, " µm"),
            .. Range("Captures.LargestDiameter", rules.LargestDiameter.Value, 1, 20_000, " µm"),
            .. Range("Captures.SettingRepeatability", rules.SettingRepeatability.Value, 0, 2_000, " µm"),
        ];
        foreach (var fault in faults)
            yield return fault;
    }

    private static IEnumerable<string> Light(LightRules rules)
    {
        if (rules.DimAtMostMillilux >= rules.BrightAtLeastMillilux)
            yield return "Light.DimAtMostMillilux is not below Light.BrightAtLeastMillilux.";
        string[] faults =
        [
            .. Range("Light.DimAtMostMillilux", rules.DimAtMostMillilux, 0, 1_000_000_000),
            .. Range("Light.DarkSettledAfterMilliseconds", rules.DarkSettledAfterMilliseconds, 0, Hour),
            .. Range("Light.DarkTimesAlikeWithinMilliseconds", rules.DarkTimesAlikeWithinMilliseconds, 0, Hour),
        ];
        foreach (var fault in faults)
            yield return fault;
    }

    private static IEnumerable<string> Legend(GradeLegend legend)
    {
        foreach (var fault in Range("Legend.Version", legend.Version, 1, int.MaxValue))
            yield return fault;
        for (var grade = 0; grade < legend.Grades.Count; grade++)
        {
            var text = legend.Grades[grade];
            if (string.IsNullOrWhiteSpace(text) || text.Length > GradeLegend.MaxLength || text.Any(char.IsControl))
                yield return $"Legend.Grades: the text of grade {grade} must have 1 to {GradeLegend.MaxLength} characters, in one line.";
        }

        if (legend.Version == GradeLegend.Default.Version && legend != GradeLegend.Default)
            yield return $"Legend.Version {legend.Version} is that of the program's own legend; give other words a higher version.";
    }

    private static IEnumerable<string> Range(string name, long value, long least, long most, string unit = "")
    {
        if (value < least || value > most)
            yield return $"{name} is {value}{unit}; it must be {least} to {most}{unit}.";
    }
}
