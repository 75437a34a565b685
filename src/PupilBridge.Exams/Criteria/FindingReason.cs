namespace PupilBridge.Exams.Criteria;

/// <summary>Why a criterion cannot tell, or was not examined.</summary>
public enum FindingReason
{
    /// <summary>There is nothing to explain: met or not met.</summary>
    None = 0,

    /// <summary>Not everything that it reads was examined.</summary>
    InputMissing = 1,

    /// <summary>The uncertainty reaches over the limit.</summary>
    Uncertainty = 2,

    /// <summary>The eyes' times in the dark were unequal, and not both had settled.</summary>
    DarkUnequalAndUnsettled = 3,

    /// <summary>The times in the dark are not known.</summary>
    DarkUnknown = 4,

    /// <summary>The patient looked near where the test needs far fixation.</summary>
    NearFixation = 5,

    /// <summary>The state of an eye makes the test unreliable.</summary>
    EyeStatus = 6,

    /// <summary>It was looked for and could not be seen.</summary>
    CouldNotSee = 7,

    /// <summary>The stimuli were not surely timely.</summary>
    Untimely = 8,

    /// <summary>Outcomes disagree: repeat.</summary>
    Disagree = 9,

    /// <summary>A pupil that was watched does not respond to light, or not known to move.</summary>
    WatchedPupilFixed = 10,

    /// <summary>Not tested in like room light, or the light was not said.</summary>
    UnlikeLight = 11,

    /// <summary>Answers contradict each other: repeat.</summary>
    Contradiction = 12,

    /// <summary>The site has no measured luminance and field for this light; lux alone does not give them.</summary>
    NoLuminance = 13,

    /// <summary>The patient's age is not known.</summary>
    NoAge = 14,

    /// <summary>The published numbers do not cover this age or light.</summary>
    NotCovered = 15,

    /// <summary>The conditions of the published numbers were not held.</summary>
    OtherConditions = 16,

    /// <summary>There is no earlier visit to compare with.</summary>
    NoEarlierVisit = 17,

    /// <summary>The larger pupil is another eye in each light.</summary>
    OtherEyeLarger = 18,

    /// <summary>The exam is still running.</summary>
    StillRunning = 19,

    /// <summary>Bell's grade IV needs 6 s of light in the better eye, which was not done.</summary>
    NoSixSeconds = 20,

    /// <summary>Fixation was not said.</summary>
    FixationUnknown = 21,

    /// <summary>Both of the compared responses are poor.</summary>
    BothPoor = 22,

    /// <summary>Whether the difference is there at all is not sure.</summary>
    DifferenceNotSure = 23,

    /// <summary>The lamps' balance was never checked, as far as is known.</summary>
    NeverChecked = 24,

    /// <summary>The end of the test was not reached.</summary>
    NotFinished = 25,

    /// <summary>The two visits were not measured in like room light.</summary>
    OtherRoomLight = 26,
}

/// <summary>The reasons in words.</summary>
public static class FindingReasons
{
    /// <summary>A reason as the end of a sentence, without a full stop.</summary>
    /// <param name="reason">The reason.</param>
    /// <returns>The words; empty for none.</returns>
    public static string Words(FindingReason reason) =>
        reason switch
        {
            FindingReason.InputMissing => "not everything that this needs was examined",
            FindingReason.Uncertainty => "the uncertainty reaches over the limit",
            FindingReason.DarkUnequalAndUnsettled =>
                "the eyes' times in the dark were unequal and had not settled; measure the first eye again",
            FindingReason.DarkUnknown => "how long the eyes had been in the dark is not known",
            FindingReason.NearFixation => "it was taken with near fixation; repeat it with far fixation",
            FindingReason.EyeStatus => "the state of an eye makes the test unreliable",
            FindingReason.CouldNotSee => "it could not be seen",
            FindingReason.Untimely => "the stimuli were not surely timely; repeat",
            FindingReason.Disagree => "outcomes disagree; repeat",
            FindingReason.WatchedPupilFixed =>
                "a pupil that was watched is not known to move; record the consensual response, or watch the working pupil alone",
            FindingReason.UnlikeLight => "it was not surely tested in like room light",
            FindingReason.Contradiction => "the answers contradict each other; repeat",
            FindingReason.NoLuminance =>
                "the site has no measured luminance and field for this light, and lux alone does not give them",
            FindingReason.NoAge => "the patient's age is not known",
            FindingReason.NotCovered => "the published numbers do not cover this age or light",
            FindingReason.OtherConditions => "the conditions of the published numbers were not held",
            FindingReason.NoEarlierVisit => "no earlier visit tells of it",
            FindingReason.OtherEyeLarger => "in each light another eye has the larger pupil; measure again",
            FindingReason.StillRunning => "the exam is still running",
            FindingReason.NoSixSeconds => "grade IV needs 6 s of light in the better eye, and that was not done",
            FindingReason.FixationUnknown => "where the patient looked was not said",
            FindingReason.BothPoor => "both compared responses are poor, and one fault can hide the other",
            FindingReason.DifferenceNotSure => "whether the sizes differ beyond the limit is itself not sure",
            FindingReason.NeverChecked => "no check of the lamps' balance is known",
            FindingReason.NotFinished => "the end of the test was not reached",
            FindingReason.OtherRoomLight => "the two visits were not surely measured in like room light",
            _ => "",
        };
}
