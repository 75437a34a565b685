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
            SwingState.AlikeUntimely =>
                $"alike ({Shown(swinging)}), stimuli not surely within tolerance, absence of an RAPD not claimed",
            SwingState.AlikeUnreliable =>
                $"alike ({Shown(swinging)}), unreliable by the state of an eye, absence of an RAPD not claimed",
            SwingState.AlikeUnresponsive =>
                $"alike ({Shown(swinging)}), with a watched pupil that does not respond to light, "
                    + "absence of an RAPD not claimed",
            SwingState.Seen => $"RAPD {Words.Of(swinging.Eye!.Value)} seen ({Shown(swinging)}), not graded",
            _ => $"outcomes disagree ({Each(swinging)}), repeat",
        };
        return text + Watched(swinging);
    }

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
        var found = dwell.Outcome?.Finding switch
        {
            null => Words.NotExamined,
            SwingFinding.Alike => "alike",
            SwingFinding.CouldNotSee => Words.CouldNotSee,
            var worse => $"{Words.Of(worse.Value.WorseEye()!.Value)} worse",
        };
        return dwell.DiffersFromBefore ? $"{found}, otherwise in the run before" : found;
    }

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
