using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>How the two edges of a pupil were taken.</summary>
public enum CaptureManner
{
    /// <summary>Both edges were marked by a key.</summary>
    Marked = 1,

    /// <summary>
    /// The nasal edge was set by moving the whole instrument while the scale stood at home; the temporal edge is where the
    /// scale rested last.
    /// </summary>
    NasalEdgeAtHome = 2,
}

/// <summary>One edge of a pupil as read.</summary>
/// <param name="Position">The position on the scale, never rewritten.</param>
/// <param name="When">When it was taken; for a nasal edge at home, when the scale was known to stand there.</param>
public sealed record EdgeReading(Micrometres Position, Moment When);

/// <summary>One measurement of one pupil. A later one of the same eye under the same light goes before it and keeps it.</summary>
public sealed record Capture
{
    /// <summary>Which eye.</summary>
    public required Eye Eye { get; init; }

    /// <summary>How the edges were taken.</summary>
    public required CaptureManner Manner { get; init; }

    /// <summary>The edge on the side of the nose.</summary>
    public required EdgeReading Nasal { get; init; }

    /// <summary>The edge on the side of the temple.</summary>
    public required EdgeReading Temporal { get; init; }

    /// <summary>The difference of both positions in the direction from nose to temple, as read.</summary>
    public required Micrometres Raw { get; init; }

    /// <summary>The step of the scale.</summary>
    public required Micrometres Resolution { get; init; }

    /// <summary>The moment from which it counts: that of the later edge.</summary>
    public required Moment When { get; init; }

    /// <summary>The entry that completed it.</summary>
    public required JournalSequence CompletedBy { get; init; }

    /// <summary>The room light; null if it was not said.</summary>
    public required RoomLight? Light { get; init; }

    /// <summary>The person's entry that said so, where a person did.</summary>
    public required EntryId? LightEntry { get; init; }

    /// <summary>The sensor's last reading, where there is one.</summary>
    public required long? Millilux { get; init; }

    /// <summary>Where the patient looked; null if it was not said.</summary>
    public required Fixation? Fixation { get; init; }

    /// <summary>The person's entry that said so, where a person did.</summary>
    public required EntryId? FixationEntry { get; init; }

    /// <summary>
    /// How long the eye had been in the dark, in ms: since the room became dim and no lamp was on. Null where the light was
    /// not dim.
    /// </summary>
    public required long? DarkMilliseconds { get; init; }
}

/// <summary>Why two positions are no diameter.</summary>
public enum PairRefusalReason
{
    /// <summary>The temporal edge lies on the nasal side of the nasal edge.</summary>
    WrongSign = 1,

    /// <summary>The difference is too small for a pupil.</summary>
    TooSmall = 2,

    /// <summary>The difference is too large for a pupil.</summary>
    TooLarge = 3,

    /// <summary>Too much time passed between the edges.</summary>
    TooLong = 4,

    /// <summary>The room light changed before the pair was complete.</summary>
    LightChanged = 5,

    /// <summary>The fixation changed before the pair was complete.</summary>
    FixationChanged = 6,

    /// <summary>The mode changed before the pair was complete.</summary>
    ModeChanged = 7,

    /// <summary>Events were lost before the pair was complete.</summary>
    EventsLost = 8,

    /// <summary>The exam ended before the pair was complete.</summary>
    ExamEnded = 9,

    /// <summary>The dial stood on a block of stimuli, where sizes are not measured.</summary>
    NotMeasuring = 10,

    /// <summary>The instrument has not told how its scale counts.</summary>
    ScaleUnknown = 11,

    /// <summary>The same edge was marked again before the other one.</summary>
    MarkedAgain = 12,

    /// <summary>The exam was split between the two edges.</summary>
    Split = 13,

    /// <summary>A lamp was on in the instrument.</summary>
    LampOn = 14,
}

/// <summary>Positions that did not become a diameter. They are kept with the reason.</summary>
/// <param name="Eye">Which eye.</param>
/// <param name="Reason">Why not.</param>
/// <param name="Nasal">The nasal position, if there was one.</param>
/// <param name="Temporal">The temporal position, if there was one.</param>
/// <param name="RefusedBy">The entry that decided it.</param>
public sealed record RefusedPair(
    Eye Eye,
    PairRefusalReason Reason,
    EdgeReading? Nasal,
    EdgeReading? Temporal,
    JournalSequence RefusedBy
);
