namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>Codes of what a person judges, and of the answers.</summary>
internal static class JudgementCodes
{
    public static LocalCode[] All { get; } =
    [
        new("pupil-shape", "Pupil shape", "The form of a pupil as judged by a person."),
        new("round", "Round", "Judged round."),
        new("not-round", "Not round", "Judged not round."),
        new(
            "direct-response",
            "Direct response",
            "Constriction of the lit eye's own pupil, graded 0 to 4 by the clinic's legend."
        ),
        new(
            "consensual-response",
            "Consensual response",
            "Constriction of the pupil of the eye that is not lit, graded 0 to 4 by the clinic's legend."
        ),
        new("near-response", "Near response", "Constriction on looking near, graded 0 to 4 by the clinic's legend."),
        new("grade-meaning", "Meaning of the grade", "What the grade means by the clinic's legend in force."),
        new(
            "slow-to-dilate",
            "Slow to dilate",
            "One pupil was seen to widen later than its fellow when light went away."
        ),
        new("seen", "Seen", "It was seen."),
        new("eye-lit", "Eye lit", "The eye in which the light was."),
        new("pupils-watched", "Pupils watched", "Whose pupils were watched; not the same as the eye that was lit."),
        new(
            "swinging-dwell",
            "Swinging-flashlight test at one dwell",
            "What the swinging-flashlight test showed at one dwell."
        ),
        new("swinging-test", "Swinging-flashlight test", "What both dwells of the swinging-flashlight test come to."),
        new("alike", "Alike", "Both eyes alike."),
        new("right-worse", "Right worse", "Worse with the light in the right eye."),
        new("left-worse", "Left worse", "Worse with the light in the left eye."),
        new("dwell", "Dwell", "How long the light rests in one eye by the profile, in s."),
        new("timely", "Timely", "Whether the alternations were complete and surely timely."),
        new("differs-from-before", "Differs from before", "Whether the run judged before had another outcome."),
        new("defect-eye", "Eye of the defect", "The eye of a relative afferent pupillary defect that was seen."),
        new("none-seen", "None seen", "Both eyes alike at every dwell judged, with complete and timely alternations."),
        new(
            "alike-untimely",
            "Alike, untimely",
            "Both eyes alike, and the stimuli were not surely timely: nothing is claimed."
        ),
        new("defect-seen", "Defect seen", "A relative afferent pupillary defect of one eye was seen."),
        new("disagree", "Disagree", "Outcomes disagree; a repeat is offered."),
        new(
            "alike-unreliable",
            "Alike, unreliable",
            "Both eyes alike, and the state of an eye makes the test unreliable: nothing is claimed."
        ),
        new(
            "alike-unresponsive",
            "Alike, unresponsive",
            "Both eyes alike, and a pupil that was watched does not respond to light: nothing is claimed."
        ),
        new(
            "alike-near-fixation",
            "Alike, near fixation",
            "Both eyes alike with near fixation, which narrows both pupils by itself: nothing is claimed."
        ),
        new(
            "alike-contradicted",
            "Alike, contradicted",
            "Both eyes alike, though a watched pupil narrows to light in the fellow eye and not in its own: nothing is claimed."
        ),
        new(
            "worse-unresponsive",
            "Worse, unresponsive",
            "One eye looked worse, and a pupil that was watched is not known to move: no defect is claimed of any eye."
        ),
        new(
            "worse-unreliable",
            "Worse, unreliable",
            "One eye looked worse, and the state of an eye makes the test unreliable: nothing is claimed."
        ),
        new(
            "worse-near-fixation",
            "Worse, near fixation",
            "One eye looked worse with near fixation, which narrows both pupils by itself: nothing is claimed."
        ),
    ];
}
