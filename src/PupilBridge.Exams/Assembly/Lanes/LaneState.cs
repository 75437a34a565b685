using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Lanes;

/// <summary>
/// What is known of one instrument between its events: the light, the dial, half-made pairs, and which exam is open. It is
/// derived from the journal like everything else and is never stored.
/// </summary>
public sealed record LaneState
{
    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>What it said of itself; null if it never did.</summary>
    public InstrumentFacts? Identity { get; init; }

    /// <summary>The boot of the last event; null before the first.</summary>
    public BootNumber? Boot { get; init; }

    /// <summary>The number of the last event of that boot that was taken.</summary>
    public long LastEvent { get; init; }

    /// <summary>When that boot was first heard of; null before the first.</summary>
    public Moment? BootSince { get; init; }

    /// <summary>When the latest event happened; null before the first.</summary>
    public Moment? LastHeard { get; init; }

    /// <summary>Whether that boot ended by switching off.</summary>
    public bool IsOff { get; init; }

    /// <summary>Boots that ended, with their last number, the latest last; as many as <see cref="KeptBoots"/>.</summary>
    public ValueList<EndedBoot> EndedBoots { get; init; }

    /// <summary>The line; null if nothing was said about it.</summary>
    public LineState? Line { get; init; }

    /// <summary>Where the dial stands; null if not known.</summary>
    public DialMove? Dial { get; init; }

    /// <summary>What the room light was said to be; null if nobody said.</summary>
    public LightSaid? Light { get; init; }

    /// <summary>The sensor's last reading; null if there is none.</summary>
    public long? Millilux { get; init; }

    /// <summary>Since when the room is dim and no lamp is on; null if it is not so.</summary>
    public Moment? DarkSince { get; init; }

    /// <summary>Where the patient was said to look; null if nobody said.</summary>
    public FixationSaid? Fixation { get; init; }

    /// <summary>The stimuli under way.</summary>
    public PerEye<LampUnderWay?> Lamps { get; init; } = Nothing<LampUnderWay>();

    /// <summary>When the last lamp went off, and in which stay.</summary>
    public LampOff? LastOff { get; init; }

    /// <summary>Edges marked, whose other edge is still to come.</summary>
    public PerEye<MarkedEdges?> Marks { get; init; } = Nothing<MarkedEdges>();

    /// <summary>The last rest away from home, which becomes a capture when the scale goes on.</summary>
    public RestUnderWay? Rest { get; init; }

    /// <summary>When each scale was last known to stand at home.</summary>
    public PerEye<Moment?> HomeSince { get; init; } = Nothing<Moment>();

    /// <summary>The exam that takes events; null if there is none.</summary>
    public ExamId? OpenExam { get; init; }

    /// <summary>Whether the open exam already holds an event, so that all that follow are later.</summary>
    public bool OpenExamHasEvents { get; init; }

    /// <summary>
    /// Whether the dial has been in <c>idle</c> or <c>measure</c> since the last exam ended, so that what comes is no remnant.
    /// </summary>
    public bool IsFresh { get; init; } = true;

    /// <summary>A dial's move that begins an exam if something happens there, or if the dial stays.</summary>
    public PendingStart? Pending { get; init; }

    /// <summary>Exams that ended lately, the latest last; as many as <see cref="KeptExams"/>.</summary>
    public ValueList<ExamWindow> Recent { get; init; }

    /// <summary>The calibrations issued for it, in the order of their numbers; a few a year.</summary>
    public ValueList<IssuedCalibration> Calibrations { get; init; }

    /// <summary>The last measurement of its lamps; null if there was none.</summary>
    public LampBalanceRecord? LampBalance { get; init; }

    /// <summary>The repeatability on living people that counts for it; null where the profile's does.</summary>
    public AdoptedRepeatability? Repeatability { get; init; }

    /// <summary>The calibration in force at a moment: the one with the latest effective date up to then, the later number of two.</summary>
    /// <param name="at">The moment.</param>
    /// <returns>Null if there is none yet.</returns>
    public IssuedCalibration? CalibrationAt(UtcTime at) =>
        Calibrations.Where(one => one.Effective <= at).OrderBy(one => (one.Effective, one.Number)).LastOrDefault();

    /// <summary>How many ended boots are remembered. Ours: a boot that old comes again only by an instrument's error.</summary>
    public const int KeptBoots = 8;

    /// <summary>How many ended exams late events may still join. Ours: an instrument's memory holds fewer sittings.</summary>
    public const int KeptExams = 16;

    private static PerEye<T?> Nothing<T>()
        where T : class => new() { Right = null, Left = null };
}

/// <summary>A boot that ended.</summary>
/// <param name="Boot">The boot.</param>
/// <param name="LastEvent">The number of its last event that was taken.</param>
public sealed record EndedBoot(BootNumber Boot, long LastEvent);

/// <summary>A stimulus under way.</summary>
/// <param name="On">When the lamp went on.</param>
/// <param name="Exam">The exam that holds the stimulus; null if none does.</param>
public sealed record LampUnderWay(Moment On, ExamId? Exam);

/// <summary>The end of a stimulus.</summary>
/// <param name="When">When the lamp went off.</param>
/// <param name="Stay">The stay in one block that it belongs to; 0 if none.</param>
/// <param name="Eye">Which eye.</param>
public sealed record LampOff(Moment When, long Stay, Eye Eye);

/// <summary>The edges of one eye marked so far.</summary>
/// <param name="Exam">The exam that they belong to.</param>
/// <param name="Nasal">The nasal one.</param>
/// <param name="Temporal">The temporal one.</param>
public sealed record MarkedEdges(ExamId Exam, EdgeReading? Nasal, EdgeReading? Temporal);

/// <summary>A scale that rests away from home.</summary>
/// <param name="Exam">The exam that it belongs to.</param>
/// <param name="Eye">Which eye.</param>
/// <param name="FirstAway">When it rested away from home for the first time in this pair.</param>
/// <param name="Away">Where it rests now.</param>
public sealed record RestUnderWay(ExamId Exam, Eye Eye, Moment FirstAway, EdgeReading Away);

/// <summary>A dial's move that begins an exam if something happens there, or if the dial stays.</summary>
/// <param name="When">When the dial moved.</param>
/// <param name="EventSequence">The event's number within its boot.</param>
/// <param name="Ends">The exam that is over then: <c>measure</c> after its swinging blocks; null if there is none.</param>
public sealed record PendingStart(Moment When, long EventSequence, ExamId? Ends);

/// <summary>An exam that ended: when, and whether an event ended it, so that all later events are surely later.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="From">Its beginning.</param>
/// <param name="HasEvents">Whether it holds events, so that all later ones are surely after its beginning.</param>
/// <param name="To">Its end.</param>
/// <param name="EndedByEvent">Whether an event ended it.</param>
public sealed record ExamWindow(ExamId Exam, Moment From, bool HasEvents, Moment To, bool EndedByEvent);
