using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>The swinging-flashlight test in words: what was seen, at which dwell, and nothing that was not examined.</summary>
public static class SwingText
{
    /// <summary>The words.</summary>
    /// <param name="swinging">The test.</param>
    /// <returns>One line.</returns>
    public static string Of(Swinging swinging)
    {
        ArgumentNullException.ThrowIfNull(swinging);
        var text = swinging.State switch
        {
            SwingState.NotExamined => Words.NotExamined,
            SwingState.CouldNotSee => $"{Words.CouldNotSee} ({Each(swinging)})",
            SwingState.NoneSeen => $"no RAPD seen ({Shown(swinging)})",
            SwingState.AlikeUntimely => Alike(swinging, "stimuli not surely within tolerance"),
            SwingState.AlikeUnreliable => Alike(swinging, "unreliable by the state of an eye"),
            SwingState.AlikeUnresponsive => Alike(
                swinging,
                "with a watched pupil that does not respond to light",
                Repeat(swinging)
            ),
            SwingState.AlikeNearFixation => Alike(swinging, "with near fixation"),
            SwingState.AlikeContradicted => Alike(
                swinging,
                "though a watched pupil does not respond to light in its own eye",
                ", repeat"
            ),
            SwingState.Seen => $"RAPD {Words.Of(swinging.Eye!.Value)} seen ({Shown(swinging)}), not graded",
            SwingState.WorseUnresponsive => Worse(
                swinging,
                $"but {Still(swinging)}: the sides may be read the wrong way round",
                Repeat(swinging)
            ),
            SwingState.WorseUnreliable => Worse(swinging, "unreliable by the state of an eye"),
            SwingState.WorseNearFixation => Worse(swinging, "with near fixation"),
            _ => $"outcomes disagree ({Each(swinging)}), repeat",
        };
        return text + Watched(swinging);
    }

    private static string Alike(Swinging swinging, string why, string then = "") =>
        $"alike ({Shown(swinging)}), {why}, absence of an RAPD not claimed{then}";

    /// <summary>What was seen, and that no eye is named for a defect.</summary>
    private static string Worse(Swinging swinging, string why, string then = "") =>
        $"light in {Words.Of(swinging.WorseEye!.Value)} looked worse ({Shown(swinging)}), {why}, "
        + $"a defect of either eye not claimed{then}";

    private static string Still(Swinging swinging) =>
        swinging.Still.Count == 1
            ? $"the pupil of {Words.Of(swinging.Still[0])}, which was watched, was not seen to respond to light"
            : "neither pupil was seen to respond to light";

    /// <summary>Only the pupil that moves tells anything: Community Eye Health J 2016 (PMC5365042), figure 4.</summary>
    private static string Repeat(Swinging swinging) =>
        swinging.Working is { } working ? $", repeat watching only the pupil of {Words.Of(working)}" : "";

    /// <summary>The dwells that showed it, then those that did not decide.</summary>
    private static string Shown(Swinging swinging)
    {
        var seen = swinging.Dwells.Where(d => d.Outcome is { Finding: not SwingFinding.CouldNotSee }).Select(Name);
        var others = swinging
            .Dwells.Where(d => d.Outcome is null or { Finding: SwingFinding.CouldNotSee })
            .Select(d => $"; {Name(d)} dwell {Found(d)}");
        return $"{string.Join(" and ", seen)} dwell{string.Concat(others)}";
    }

    private static string Each(Swinging swinging) =>
        string.Join("; ", swinging.Dwells.Select(d => $"{Name(d)} dwell: {Found(d)}"));

    private static string Found(DwellReading dwell)
    {
        var found = Found(dwell.Outcome?.Finding);
        return dwell.DiffersFromBefore ? $"{found}, otherwise in the run before"
            : dwell.DiffersFromAnother ? $"{found}, otherwise by another examiner"
            : found;
    }

    /// <summary>What was found at a dwell; null for nothing.</summary>
    internal static string Found(SwingFinding? finding) =>
        finding switch
        {
            null => Words.NotExamined,
            SwingFinding.Alike => "alike",
            SwingFinding.CouldNotSee => Words.CouldNotSee,
            var worse => $"{Words.Of(worse.Value.WorseEye()!.Value)} worse",
        };

    private static string Watched(Swinging swinging)
    {
        var one = swinging
            .Dwells.Where(d => d.Outcome is { Observed: not PupilsObserved.Both })
            .Select(d => (Name: Name(d), Eye: d.Outcome!.Observed == PupilsObserved.Right ? Eye.Right : Eye.Left))
            .Select(d => $"; {d.Name} dwell: only the pupil of {Words.Of(d.Eye)} watched");
        return string.Concat(one);
    }

    private static string Name(DwellReading dwell) => dwell.Dwell == Block.SwingShort ? "short" : "long";
}
