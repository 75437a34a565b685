namespace PupilBridge.Exams.Assembly.Views;

/// <summary>What the swinging-flashlight test adds up to.</summary>
public enum SwingState
{
    /// <summary>No dwell was judged.</summary>
    NotExamined = 1,

    /// <summary>It was looked for and could not be seen.</summary>
    CouldNotSee = 2,

    /// <summary>Both eyes alike at every dwell judged, with complete and timely alternations: no RAPD seen.</summary>
    NoneSeen = 3,

    /// <summary>Both eyes alike, and the stimuli were not surely timely: nothing is claimed.</summary>
    AlikeUntimely = 4,

    /// <summary>A relative afferent pupillary defect of one eye was seen.</summary>
    Seen = 5,

    /// <summary>Outcomes disagree; a repeat is offered.</summary>
    Disagree = 6,

    /// <summary>Both eyes alike, and the state of an eye makes the test unreliable: nothing is claimed.</summary>
    AlikeUnreliable = 7,

    /// <summary>
    /// Both eyes alike, and a pupil that was watched does not respond to light at all, so that it could show no difference:
    /// nothing is claimed.
    /// </summary>
    AlikeUnresponsive = 8,

    /// <summary>
    /// One eye looked worse, and a pupil that was watched is not known to move: what was seen may be the reading the wrong way
    /// round, so that no defect is claimed of any eye.
    /// </summary>
    WorseUnresponsive = 9,

    /// <summary>One eye looked worse, and the state of an eye makes the test unreliable: nothing is claimed.</summary>
    WorseUnreliable = 10,

    /// <summary>One eye looked worse with near fixation, which narrows both pupils by itself: nothing is claimed.</summary>
    WorseNearFixation = 11,

    /// <summary>Both eyes alike with near fixation, which narrows both pupils by itself: nothing is claimed.</summary>
    AlikeNearFixation = 12,

    /// <summary>
    /// Both eyes alike, though a pupil that was watched narrows to light in the fellow eye and not to light in its own: nothing is
    /// claimed.
    /// </summary>
    AlikeContradicted = 13,
}
