using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>How far the exam itself can be relied on: the texts. <see cref="QualityRule"/> decides.</summary>
internal static class QualityCriteria
{
    private static readonly ValueList<string> Practice = ["Common practice; the numbers are those of the profile"];

    public static readonly Criterion Timing = new()
    {
        Id = "timing-off",
        Kind = CriterionKind.Quality,
        Reads = ["dwell and gap of every stimulus of the block, by the instrument's ticks"],
        Limit = new(5, "%", "ours", "Profile.DwellTolerancePercent"),
        Sources = ["Dwell 3 s: Bell RA et al., Arch Ophthalmol 1993;111(7):938-942; 1 s and the tolerance are ours"],
        Asks = "stimuli of the {block} block were out of tolerance",
        WhenMet = "Stimuli of the {block} block were out of tolerance: {detail}.",
        WhenNotMet = "All stimuli of the {block} block were within the tolerance.",
        Caution = "Unequal light or dwell can imitate a defect or hide one.",
        FurtherLook = "Repeat the block; have the instrument's timing checked if it comes again.",
    };

    public static readonly Criterion LampBalance = new()
    {
        Id = "lamp-balance-unchecked",
        Kind = CriterionKind.Quality,
        Reads = ["age of the last check of the lamps' balance"],
        Limit = new(365, "day", "ours", nameof(CriteriaLimits.LampBalanceDays)),
        Sources = ["Equal light for both eyes is common teaching, from memory"],
        Asks = "the check of the lamps' balance is overdue",
        WhenMet = "The last check of the lamps' balance is {detail} days old, more than {limit}.",
        WhenNotMet = "The last check of the lamps' balance is {detail} days old, at most {limit}.",
        Caution = "Unequal lamps can imitate a relative afferent defect.",
        FurtherLook = "Have the lamps' balance checked; repeat the swinging test.",
    };

    public static readonly Criterion EyeStatus = new()
    {
        Id = "eye-status-unreliable",
        Kind = CriterionKind.Quality,
        Reads = ["state of the eye as entered before the test"],
        Limit = null,
        Sources = ["Teaching pages: log drops and drugs before the test; what each state makes unreliable is ours"],
        Asks = "the state of {eye} makes tests unreliable",
        WhenMet = "{eye}: {detail}. Tests of this eye are unreliable.",
        WhenNotMet = "{eye}: nothing was noted that makes tests unreliable.",
        Caution = "Drops, nebulised drugs, patches and plants can widen one pupil.",
        FurtherLook = "Repeat once the drug has worn off, or judge by the other signs.",
    };

    public static readonly Criterion Fixation = new()
    {
        Id = "fixation-wrong",
        Kind = CriterionKind.Quality,
        Reads = ["fixation at every size and light response"],
        Limit = null,
        Sources = ["Teaching pages: distance fixation, since looking near narrows both pupils"],
        Asks = "fixation was wrong for a test",
        WhenMet = "Near fixation where far fixation is needed: {detail}.",
        WhenNotMet = "Far fixation at every size and light response.",
        Caution = "Looking near narrows both pupils.",
        FurtherLook = "Repeat those tests with far fixation.",
    };

    public static readonly Criterion Incomplete = new()
    {
        Id = "exam-incomplete",
        Kind = CriterionKind.Quality,
        Reads = ["steps of the profile", "what was answered"],
        Limit = null,
        Sources = Practice,
        Asks = "a step was not examined",
        WhenMet = "Not examined: {detail}.",
        WhenNotMet = "Every step of the profile was answered.",
        Caution = "What was not examined may hold what matters.",
        FurtherLook = "Examine it before drops, or write down why not.",
    };
}
