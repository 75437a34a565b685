using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>The swinging-flashlight test: the texts. <see cref="SwingRule"/> decides.</summary>
internal static class SwingCriteria
{
    private static readonly ValueList<string> Sourced =
    [
        "Levatin P, Arch Ophthalmol 1959;62:768-779 (title from memory)",
        "Bell RA et al., Arch Ophthalmol 1993;111(7):938-942: 3 s per eye; the short dwell of 1 s is a convention",
    ];

    private static Criterion Dwell(string id, string word) =>
        new()
        {
            Id = id,
            Kind = CriterionKind.Sign,
            Reads = [$"outcome of the {word} dwell", "its alternations and their timing", "state of both eyes"],
            Limit = null,
            Sources = Sourced,
            Asks = $"one eye is worse at the {word} dwell",
            WhenMet = $"Swinging test, {word} dwell: worse with the light in {{eye}}.",
            WhenNotMet = $"Swinging test, {word} dwell: both eyes alike, with complete and timely alternations.",
            Caution = "One dwell by itself is half of the test.",
            FurtherLook = "Compare with the other dwell; repeat where they differ.",
        };

    public static readonly Criterion Short = Dwell("swinging-short", "short");

    public static readonly Criterion Long = Dwell("swinging-long", "long");

    public static readonly Criterion Rapd = new()
    {
        Id = "rapd",
        Kind = CriterionKind.Sign,
        Reads = ["outcomes of both dwells", "their agreement", "which pupils were watched", "state of both eyes"],
        Limit = null,
        Sources = Sourced,
        Asks = "there is a relative afferent pupillary defect",
        WhenMet = "RAPD of {eye} seen ({detail}). Consistent with a relative afferent defect on that side.",
        WhenNotMet = "No RAPD seen ({detail}). The test compares the eyes: a loss alike in both shows none.",
        Caution = "Consider disease of the retina or the optic nerve on that side.",
        Questions = ["Sight of each eye? Colours? Sudden loss, pain on moving the eye?"],
        FurtherLook =
            "Bracket it with neutral-density filters before {fellow}; compare sight, colours and fields of both eyes.",
    };

    public static readonly Criterion Reversed = new()
    {
        Id = "rapd-one-pupil",
        Kind = CriterionKind.Sign,
        Reads = ["responses that tell whether each pupil moves", "swinging outcomes", "which pupil was watched"],
        Limit = null,
        Sources =
        [
            "Community Eye Health J 2016 (PMC5365042), figure 4: one working pupil is enough; watch that one",
            "The second half, the defect on the working pupil's own side, from memory",
        ],
        Asks = "the one working pupil shows an afferent defect",
        WhenMet =
            "One pupil does not move; the reading is taken from the other one alone: {detail} Consistent with an afferent defect of {eye}.",
        WhenNotMet = "One pupil does not move; the working one, watched alone, showed both eyes alike.",
        Caution = "The pupil that was watched and the eye that was lit are two things: read both.",
        FurtherLook = "Repeat while watching the working pupil alone.",
    };
}
