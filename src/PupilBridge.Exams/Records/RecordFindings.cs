using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Records;

/// <summary>One measurement of one pupil.</summary>
public sealed record RecordSize
{
    /// <summary>The eye.</summary>
    public required string Eye { get; init; }

    /// <summary>The room light; null if it was not said.</summary>
    public required string? Light { get; init; }

    /// <summary>Whether it is the one that counts for this eye and light; others are kept beside it.</summary>
    public required bool Counts { get; init; }

    /// <summary>The diameter.</summary>
    public required int DiameterMicrometres { get; init; }

    /// <summary>Its expanded uncertainty (k = 2).</summary>
    public required int ExpandedUncertaintyMicrometres { get; init; }

    /// <summary>Whether reference discs stand behind it.</summary>
    public required bool IsCalibrated { get; init; }

    /// <summary>The difference as read.</summary>
    public required int RawMicrometres { get; init; }

    /// <summary>The scale's step.</summary>
    public required int ResolutionMicrometres { get; init; }

    /// <summary>How the edges were taken, in a word.</summary>
    public required string Manner { get; init; }

    /// <summary>The edge on the side of the nose.</summary>
    public required RecordEdge Nasal { get; init; }

    /// <summary>The edge on the side of the temple.</summary>
    public required RecordEdge Temporal { get; init; }

    /// <summary>The entry that completed it.</summary>
    public required long CompletedBy { get; init; }

    /// <summary>Where the patient looked; null if it was not said.</summary>
    public required string? Fixation { get; init; }

    /// <summary>The sensor's reading; null if there is none.</summary>
    public required long? Millilux { get; init; }

    /// <summary>How long the eye had been in the dark; null if the light was not dim, or nobody can know.</summary>
    public required long? DarkMilliseconds { get; init; }

    /// <summary>Whether the state of the eye makes it unreliable.</summary>
    public required bool IsDoubtful { get; init; }
}

/// <summary>One edge as read.</summary>
/// <param name="PositionMicrometres">The position on the scale, never rewritten.</param>
/// <param name="At">When.</param>
/// <param name="Sequence">The entry that says so.</param>
public sealed record RecordEdge(int PositionMicrometres, string At, long Sequence);

/// <summary>Positions that became no size.</summary>
/// <param name="Eye">The eye.</param>
/// <param name="Reason">Why not, in a word.</param>
/// <param name="Sequences">The entries that decided it.</param>
public sealed record RecordRefusedPairs(string Eye, string Reason, ValueList<long> Sequences);

/// <summary>One judgement.</summary>
public sealed record RecordJudgement
{
    /// <summary>What was judged: <c>shape</c>, <c>direct</c>, <c>consensual</c>, <c>swinging</c>, <c>near</c>, <c>slow-to-dilate</c>.</summary>
    public required string Judged { get; init; }

    /// <summary>The eye whose pupil was judged; null for swinging.</summary>
    public required string? Eye { get; init; }

    /// <summary>The eye that was lit, where that is another one; null elsewhere.</summary>
    public required string? Lit { get; init; }

    /// <summary>The dwell of the swinging test; null elsewhere.</summary>
    public required string? Dwell { get; init; }

    /// <summary>
    /// The answer: a grade as <c>0</c>, <c>0.5</c>, … <c>4</c>, or a word. <c>?</c> and <c>could-not-see</c> say that it could
    /// not be seen, which is no finding.
    /// </summary>
    public required string Answer { get; init; }

    /// <summary>Whose pupils were watched in the swinging test; null elsewhere.</summary>
    public required string? Watched { get; init; }

    /// <summary>Who judged.</summary>
    public required string Who { get; init; }

    /// <summary>When it was entered.</summary>
    public required string At { get; init; }

    /// <summary>Where it stands in the journal.</summary>
    public required long Sequence { get; init; }

    /// <summary>The entry of the stimulus that it is about; null if about none.</summary>
    public required long? Stimulus { get; init; }

    /// <summary>The run of the block that it is about; 0 if about none.</summary>
    public required int Run { get; init; }

    /// <summary>The room light when it was judged; null if it was not said.</summary>
    public required string? Light { get; init; }

    /// <summary>Where the patient looked when it was judged; null if it was not said.</summary>
    public required string? Fixation { get; init; }

    /// <summary>Whether it holds.</summary>
    public required bool Counts { get; init; }

    /// <summary>Why it does not, in a word: <c>taken-back</c>, <c>replaced</c>, or why it was refused; null if it does.</summary>
    public required string? WhyNot { get; init; }
}

/// <summary>What the swinging test adds up to.</summary>
/// <param name="State">What, in a word.</param>
/// <param name="Eye">The eye of the defect seen; null if none was.</param>
/// <param name="Dwells">Both dwells, the short one first.</param>
public sealed record RecordSwinging(string State, string? Eye, ValueList<RecordDwell> Dwells);

/// <summary>What was judged at one dwell.</summary>
/// <param name="Dwell">The dwell.</param>
/// <param name="Finding">The finding of the latest run judged; null if none was.</param>
/// <param name="Sequence">The entry that judged it; null if none did.</param>
/// <param name="Run">Which run, from 1; 0 if none.</param>
/// <param name="IsTimely">Whether its alternations were complete and surely timely.</param>
/// <param name="DiffersFromBefore">Whether the run judged before it had another outcome.</param>
public sealed record RecordDwell(
    string Dwell,
    string? Finding,
    long? Sequence,
    int Run,
    bool IsTimely,
    bool DiffersFromBefore
);

/// <summary>One run of a block, with the timing of its complete stimuli.</summary>
public sealed record RecordRun
{
    /// <summary>The block.</summary>
    public required string Block { get; init; }

    /// <summary>Which run of it, from 1.</summary>
    public required int Run { get; init; }

    /// <summary>Complete stimuli of the right eye.</summary>
    public required int Right { get; init; }

    /// <summary>Complete stimuli of the left eye.</summary>
    public required int Left { get; init; }

    /// <summary>Alternations in the longest unbroken chain; 0 for the direct block.</summary>
    public required int Alternations { get; init; }

    /// <summary>Whether it reached the profile's count.</summary>
    public required bool HasReachedCount { get; init; }

    /// <summary>Whether all stimuli that count were surely within the tolerance.</summary>
    public required bool IsTimely { get; init; }

    /// <summary>Whether it was left and taken up again.</summary>
    public required bool WasInterrupted { get; init; }

    /// <summary>The dwell that the profile wants.</summary>
    public required int WantedDwellMilliseconds { get; init; }

    /// <summary>The shortest dwell; null if none is known.</summary>
    public required long? ShortestDwellMilliseconds { get; init; }

    /// <summary>The longest dwell; null if none is known.</summary>
    public required long? LongestDwellMilliseconds { get; init; }

    /// <summary>The shortest gap; null if none is known.</summary>
    public required long? ShortestGapMilliseconds { get; init; }

    /// <summary>The longest gap; null if none is known.</summary>
    public required long? LongestGapMilliseconds { get; init; }

    /// <summary>Stimuli that do not count: cut short, overlapping, or their end lost.</summary>
    public required int NotComplete { get; init; }

    /// <summary>The entry of its first lamp going on.</summary>
    public required long First { get; init; }

    /// <summary>The entry of its last one.</summary>
    public required long Last { get; init; }
}

/// <summary>
/// The stimuli of one eye in one run of a block, in their order: two lists of whole milliseconds, so that an exam with hundreds of
/// stimuli still fits into an entry of the journal.
/// </summary>
/// <param name="Block">The block; null for lamps that belong to none.</param>
/// <param name="Run">Which run of it, from 1; 0 for lamps that belong to none.</param>
/// <param name="Eye">The eye that was lit.</param>
/// <param name="OnMilliseconds">When each lamp went on, after the exam opened; negative if surely a little before.</param>
/// <param name="ForMilliseconds">How long each was on, by the instrument's own ticks; null where that was never learnt.</param>
public sealed record RecordTrain(
    string? Block,
    int Run,
    string Eye,
    ValueList<long> OnMilliseconds,
    ValueList<long?> ForMilliseconds
);

/// <summary>The state of an eye as entered.</summary>
/// <param name="Eye">The eye.</param>
/// <param name="Conditions">What holds of it, in the chart's words.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Counts">Whether it holds.</param>
public sealed record RecordEyeStatus(string Eye, string Conditions, string Who, string At, long Sequence, bool Counts);

/// <summary>A remark.</summary>
/// <param name="Text">The remark; null once it has been erased.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
public sealed record RecordNote(string? Text, string Who, string At, long Sequence);
