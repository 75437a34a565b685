using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>In which light a size difference is larger: the texts. <see cref="PatternRule"/> decides.</summary>
internal static class PatternCriteria
{
    private static readonly ValueList<string> Inputs =
    [
        "sizes of both eyes in bright light",
        "sizes of both eyes in dim light",
        "times in the dark",
        "state of both eyes",
    ];

    private static readonly ValueList<string> Asked =
    [
        "Lid drooping, and on which side?",
        "Limited eye movements or double vision?",
        "Pain in eye, head or neck; injury?",
        "Drops, nebuliser, patches or plants?",
    ];

    private const string Repeatability =
        "\"Larger\" is what exceeds the uncertainty of the four sizes; no published number of millimetres exists.";

    public static readonly Criterion InDim = new()
    {
        Id = "anisocoria-larger-in-dim",
        Kind = CriterionKind.Sign,
        Reads = Inputs,
        Limit = null,
        Unit = "mm",
        Sources =
        [
            "Textbook chapter on anisocoria citing Burde 1992: larger in dim, the smaller pupil is the one to look at",
        ],
        Asks = "the size difference is larger in dim light",
        WhenMet =
            "The size difference is larger in dim light, by {value} mm ± {u} mm (k = 2): the smaller pupil, {eye}, widens less. Consistent with a sympathetic defect on that side.",
        WhenNotMet = "The size difference is not larger in dim light. " + Repeatability,
        Caution =
            "Consider Horner syndrome on the side of {eye}; a suspicion is referred urgently (possible arterial dissection or tumour). New and painful: carotid dissection until shown otherwise.",
        Questions = Asked,
        FurtherLook =
            "Look for dilation lag at 5 and 15 s of darkness and for a slight droop of the lid on the side of the smaller pupil.",
    };

    public static readonly Criterion InBright = new()
    {
        Id = "anisocoria-larger-in-bright",
        Kind = CriterionKind.Sign,
        Reads = Inputs,
        Limit = null,
        Unit = "mm",
        Sources =
        [
            "Textbook chapter on anisocoria citing Burde 1992: larger in bright, the larger pupil is the one to look at",
            "Teaching page and clinical summary on third-nerve palsy; angle closure from memory",
        ],
        Asks = "the size difference is larger in bright light",
        WhenMet =
            "The size difference is larger in bright light, by {value} mm ± {u} mm (k = 2): the larger pupil, {eye}, narrows less. Consistent with a parasympathetic defect, a drug effect or damage to the iris on that side.",
        WhenNotMet = "The size difference is not larger in bright light. " + Repeatability,
        Caution =
            "Consider third-nerve palsy (possible aneurysm): with a drooping lid or limited eye movements it is an emergency; without either it is not typical, but look for subtle signs. A red painful eye with haloes, vomiting and a fixed pupil of middle size: consider acute angle closure. Drops, nebulised drugs, patches and plants can widen one pupil.",
        Questions = Asked,
        FurtherLook = "Eye movements and lids; direct, consensual and near response of {eye}; shape of the pupil.",
    };

    public static readonly Criterion Alike = new()
    {
        Id = "anisocoria-alike",
        Kind = CriterionKind.Sign,
        Reads = Inputs,
        Limit = new(0.4, "mm", "Lam et al. 1987", nameof(CriteriaLimits.DescriptiveAnisocoria)),
        Sources =
        [
            "Common teaching, from memory: alike in both lights with good reactions is called simple anisocoria",
        ],
        Asks = "there is a size difference that is alike in both lights",
        WhenMet =
            "The size difference changes from bright to dim by {value} mm ± {u} mm (k = 2), within repeatability. Consistent with a simple difference only where both pupils react briskly and there is no dilation lag; that is no reassurance.",
        WhenNotMet = "There is no size difference that is alike in both lights.",
        Caution = "A defect can look like this, all the more where it is slight.",
        Questions = Asked,
        FurtherLook = "Reactions of both pupils, dilation lag, lids; older photographs; measure again another day.",
    };
}
