namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>What went wrong around an exam. None of it is hidden.</summary>
public enum IncidentKind
{
    /// <summary>Events are lost for good.</summary>
    EventsLost = 1,

    /// <summary>An event came twice with different content; the first one stands.</summary>
    Conflict = 2,

    /// <summary>The instrument reported a fault of its own.</summary>
    InstrumentFault = 3,

    /// <summary>The instrument started anew in the middle of the exam.</summary>
    Restarted = 4,

    /// <summary>The line was lost.</summary>
    LineLost = 5,

    /// <summary>The line went quiet.</summary>
    LineStalled = 6,

    /// <summary>The line came back.</summary>
    LineBack = 7,

    /// <summary>An event arrived after the exam was over and surely belongs to it.</summary>
    ArrivedLate = 8,

    /// <summary>An event of a kind that this version does not know; kept word for word.</summary>
    UnknownEvent = 9,

    /// <summary>The instrument's lamps did not go on and off in turn.</summary>
    LampOutOfTurn = 10,

    /// <summary>A person's entry could not be applied.</summary>
    EntryNotApplied = 11,

    /// <summary>The instrument has not told how its scales count, so that positions are no diameters.</summary>
    IdentityUnknown = 12,

    /// <summary>The instrument said something about itself that differs from what it said when the exam opened.</summary>
    IdentityChanged = 13,

    /// <summary>A person's entry was taken back.</summary>
    EntryWithdrawn = 14,

    /// <summary>An event may have happened in this exam or on the other side of its border; it belongs to no exam.</summary>
    EventUnplaced = 15,

    /// <summary>
    /// The instrument told more of this exam after its record was signed. It joined the exam; what was signed does not hold it.
    /// </summary>
    ArrivedAfterSigning = 16,
}

/// <summary>One thing that went wrong, or that a reader should know.</summary>
/// <param name="Kind">What.</param>
/// <param name="When">When, and by which entry that is known.</param>
/// <param name="Detail">More, for a person to read; may be empty.</param>
public sealed record Incident(IncidentKind Kind, Moment When, string Detail);
