namespace PupilBridge.Clinic.Views;

/// <summary>All that the screen of a lane shows at one moment. Times are UTC, by the service's clock.</summary>
public sealed record LaneBoard
{
    /// <summary>When this was made; a screen reckons running times from it.</summary>
    public required DateTimeOffset Now { get; init; }

    /// <summary>The instrument's serial number.</summary>
    public required string Instrument { get; init; }

    /// <summary>Its model, as it says itself; empty if it never did.</summary>
    public required string Model { get; init; }

    /// <summary>The state of the line in a word: <c>connected</c>, <c>lost</c>, <c>stalled</c>, <c>off</c> or <c>not-seen</c>.</summary>
    public required string Line { get; init; }

    /// <summary>The same for a person, with what to do where something is wrong.</summary>
    public required string LineWords { get; init; }

    /// <summary>The battery's charge in percent; null if it has none or did not tell.</summary>
    public required int? BatteryPercent { get; init; }

    /// <summary>Whether the instrument can switch itself off when asked.</summary>
    public required bool CanSwitchOff { get; init; }

    /// <summary>Why nothing can be recorded just now; null when all is well.</summary>
    public required string? Trouble { get; init; }

    /// <summary>The mode of the dial in a word; null if it is not known.</summary>
    public required string? Mode { get; init; }

    /// <summary>The block in a word; null if there is none or it is not known.</summary>
    public required string? Block { get; init; }

    /// <summary>The right eye, live.</summary>
    public required LaneEye Right { get; init; }

    /// <summary>The left eye, live.</summary>
    public required LaneEye Left { get; init; }

    /// <summary>The room light.</summary>
    public required LaneRoom Room { get; init; }

    /// <summary>Where the patient looks: <c>far</c>, <c>near</c>; null if it was not said.</summary>
    public required string? Fixation { get; init; }

    /// <summary>The number of the last event received in this boot; 0 for none.</summary>
    public required long ReceivedEvents { get; init; }

    /// <summary>The number of the last event that is on disk; 0 for none.</summary>
    public required long RecordedEvents { get; init; }

    /// <summary>The exam that takes the instrument's events, as recorded; null if there is none.</summary>
    public required LaneExam? Exam { get; init; }

    /// <summary>The exam before it, if it still lacks something or was ended by the next one; null otherwise.</summary>
    public required LaneExamBefore? Before { get; init; }

    /// <summary>Reminders about the lane as a whole, such as an instrument left on.</summary>
    public required IReadOnlyList<LaneReminder> Reminders { get; init; }

    /// <summary>
    /// How the calibration stands that corrects the sizes: that of the exam as it stood when the exam opened, without an exam the one in
    /// force now. Null only on a board that was made before calibrations were shown.
    /// </summary>
    public CalibrationView? Calibration { get; init; }

    /// <summary>The run on the bench that takes the instrument's readings, so that nothing is asked for; null if there is none.</summary>
    public LaneBench? Bench { get; init; }
}

/// <summary>A run on the bench, as a lane shows it.</summary>
/// <param name="Run">Its number.</param>
/// <param name="Kind">What it is for, in a word.</param>
/// <param name="Technician">Who began it.</param>
/// <param name="Words">The same for a person, and when exams begin again.</param>
public sealed record LaneBench(long Run, string Kind, string Technician, string Words);

/// <summary>One eye's side of an instrument, live. None of it is recorded.</summary>
public sealed record LaneEye
{
    /// <summary>Where the scale is, in µm; null if it did not tell.</summary>
    public required int? PositionMicrometres { get; init; }

    /// <summary>Whether the scale moves or has just moved.</summary>
    public required bool IsMoving { get; init; }

    /// <summary>The diameter that the position would give if it were taken now, in mm; null where it would give none.</summary>
    public required double? LiveMillimetres { get; init; }

    /// <summary>Whether the lamp is on.</summary>
    public required bool IsLit { get; init; }

    /// <summary>Since when it is lit; null if it is not.</summary>
    public required DateTimeOffset? LitSince { get; init; }

    /// <summary>How long the profile wants this stimulus to last, in ms; null where it wants nothing.</summary>
    public required int? DwellWantedMilliseconds { get; init; }

    /// <summary>Since when the eye is in the dark; null if it is not.</summary>
    public required DateTimeOffset? DarkSince { get; init; }

    /// <summary>After how long in the dark the profile takes it as settled, in ms.</summary>
    public required int DarkSettledAfterMilliseconds { get; init; }
}

/// <summary>The room light.</summary>
/// <param name="Light"><c>bright</c>, <c>dim</c>, <c>between</c>; null if it was not said.</param>
/// <param name="Lux">The sensor's reading in lux; null without a sensor.</param>
/// <param name="MustBeSaid">Whether a person has to say it, since the instrument does not tell.</param>
public sealed record LaneRoom(string? Light, double? Lux, bool MustBeSaid);

/// <summary>The exam on a lane.</summary>
public sealed record LaneExam
{
    /// <summary>The exam's number.</summary>
    public required long Exam { get; init; }

    /// <summary>Its status in a word.</summary>
    public required string Status { get; init; }

    /// <summary>When it opened.</summary>
    public required DateTimeOffset OpenedAt { get; init; }

    /// <summary>The patient; null while it is attached to nobody.</summary>
    public required PatientView? Patient { get; init; }

    /// <summary>The steps in the profile's order.</summary>
    public required IReadOnlyList<LaneStep> Steps { get; init; }

    /// <summary>The one thing asked for now.</summary>
    public required LanePrompt Prompt { get; init; }

    /// <summary>
    /// Questions that may be answered beside it and need not be, each with its own key: the consensual response where a direct one is
    /// poor or the two are unequal. They are never missing, and one counts only after it was opened.
    /// </summary>
    public required IReadOnlyList<LanePrompt> Optional { get; init; }

    /// <summary>What is missing, in words, one line each: what a first Enter names. Empty if the exam is complete.</summary>
    public required IReadOnlyList<string> Missing { get; init; }

    /// <summary>The steps that a second Enter accepts as not examined, in the words that an entry takes.</summary>
    public required IReadOnlyList<string> MissingSteps { get; init; }

    /// <summary>The sizes that count.</summary>
    public required IReadOnlyList<LaneSize> Sizes { get; init; }

    /// <summary>The judgements that count, the latest last.</summary>
    public required IReadOnlyList<LaneJudgement> Judgements { get; init; }

    /// <summary>What holds of each eye before the test, by the latest word about it; eyes of which nothing was said are missing.</summary>
    public IReadOnlyList<LaneEyeStatus> EyeStatuses { get; init; } = [];

    /// <summary>Reminders about this exam.</summary>
    public required IReadOnlyList<LaneReminder> Reminders { get; init; }

    /// <summary>Why a clinician should see the patient before drops, in words; empty if there is no such reason so far.</summary>
    public required IReadOnlyList<string> BeforeDrops { get; init; }

    /// <summary>Gaps and other incidents, in words, the latest last.</summary>
    public required IReadOnlyList<string> Gaps { get; init; }

    /// <summary>The chart text in one line.</summary>
    public required string ChartLine { get; init; }
}

/// <summary>One step of an exam.</summary>
/// <param name="Step">The step in a word.</param>
/// <param name="State"><c>done</c>, <c>due</c>, <c>not-yet</c>, <c>skipped</c>, <c>accepted</c> or <c>not-possible</c>.</param>
/// <param name="Name">Its name for a person.</param>
/// <param name="Eyes">The eyes for which it lacks something, <c>OD</c> before <c>OS</c>.</param>
public sealed record LaneStep(string Step, string State, string Name, IReadOnlyList<string> Eyes);

/// <summary>The one thing asked for now.</summary>
public sealed record LanePrompt
{
    /// <summary>Names exactly what is asked: exam, what, step, eye and stimulus. It never changes its meaning.</summary>
    public required string Key { get; init; }

    /// <summary>
    /// What an answer is: <c>grade</c>, <c>shape</c>, <c>swing</c>, <c>light</c>, <c>ready</c>, or <c>none</c> where something is to be
    /// done and no key answers.
    /// </summary>
    public required string Accepts { get; init; }

    /// <summary>The judgement that a grade, shape or swing answers, ready but for its last word, such as <c>direct OD</c>; else empty.</summary>
    public required string Judges { get; init; }

    /// <summary>The step in a word; null if it is about none.</summary>
    public required string? Step { get; init; }

    /// <summary><c>OD</c>, <c>OS</c>, or null for both or none.</summary>
    public required string? Eye { get; init; }

    /// <summary>The journal sequence of the stimulus that it is about; null if about none.</summary>
    public required long? Stimulus { get; init; }

    /// <summary>What is asked for, short enough for large letters.</summary>
    public required string Words { get; init; }

    /// <summary>More about it: which keys answer, what counts; may be empty.</summary>
    public required string Detail { get; init; }

    /// <summary>Whether it may be left out without harm.</summary>
    public required bool IsOptional { get; init; }
}

/// <summary>One size that counts.</summary>
/// <param name="Eye"><c>OD</c> or <c>OS</c>.</param>
/// <param name="Light"><c>bright</c>, <c>dim</c>, or null if it was not said.</param>
/// <param name="Millimetres">The diameter in mm.</param>
/// <param name="UncertaintyMillimetres">Its expanded uncertainty in mm, for about 95 %.</param>
/// <param name="Sequence">The journal entry that completed it.</param>
public sealed record LaneSize(
    string Eye,
    string? Light,
    double Millimetres,
    double UncertaintyMillimetres,
    long Sequence
);

/// <summary>One judgement that counts.</summary>
/// <param name="EntryId">The entry's id, by which it can be taken back.</param>
/// <param name="Judgement">The judgement as it is typed.</param>
/// <param name="Words">The same in short words.</param>
/// <param name="Who">Who judged.</param>
/// <param name="Step">The step it answers, in a word.</param>
public sealed record LaneJudgement(string EntryId, string Judgement, string Words, string Who, string Step);

/// <summary>What holds of one eye before the test.</summary>
/// <param name="Eye"><c>OD</c> or <c>OS</c>.</param>
/// <param name="Conditions">The conditions in the words that an entry takes; <c>nothing-remarkable</c> alone where there is none.</param>
/// <param name="Who">Who entered it.</param>
public sealed record LaneEyeStatus(string Eye, IReadOnlyList<string> Conditions, string Who);

/// <summary>A reminder.</summary>
/// <param name="Kind">What kind, in a word.</param>
/// <param name="Words">What to do.</param>
/// <param name="IsUrgent">Whether a sound belongs to it.</param>
public sealed record LaneReminder(string Kind, string Words, bool IsUrgent);

/// <summary>The exam before the one on the lane.</summary>
/// <param name="Exam">Its number.</param>
/// <param name="Patient">The patient's number; null while it is attached to nobody.</param>
/// <param name="Status">Its status in a word.</param>
/// <param name="Words">What it lacks, or that it is complete, for a person.</param>
/// <param name="BeforeDrops">Why a clinician should see the patient before drops; empty for no reason.</param>
public sealed record LaneExamBefore(
    long Exam,
    string? Patient,
    string Status,
    string Words,
    IReadOnlyList<string> BeforeDrops
);
