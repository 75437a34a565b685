using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Records;

/// <summary>The beginning or the end of an exam.</summary>
/// <param name="At">When.</param>
/// <param name="UncertaintyMilliseconds">How far that may be off.</param>
/// <param name="Sequence">The entry that says so.</param>
/// <param name="Who">Who did it; null if it happened by itself.</param>
/// <param name="Reason">Why it ended, in a word; null for the beginning.</param>
public sealed record RecordBorder(string At, long UncertaintyMilliseconds, long Sequence, string? Who, string? Reason);

/// <summary>A stretch of the journal, both ends included.</summary>
/// <param name="First">Its first entry.</param>
/// <param name="Last">Its last entry.</param>
public sealed record RecordRange(long First, long Last);

/// <summary>The instrument of an exam.</summary>
/// <param name="Serial">Its serial number.</param>
/// <param name="Model">Its model; null if it never told.</param>
/// <param name="Firmware">The version of its program; null if it never told.</param>
/// <param name="Sequence">The entry that says so; null if it never told.</param>
/// <param name="Right">The right eye's scale.</param>
/// <param name="Left">The left eye's scale.</param>
public sealed record RecordInstrument(
    string Serial,
    string? Model,
    string? Firmware,
    long? Sequence,
    RecordScale? Right,
    RecordScale? Left
);

/// <summary>How a scale counts.</summary>
/// <param name="HomeMicrometres">Where it rests.</param>
/// <param name="Direction">Where its positions grow towards: <c>temporal</c> or <c>nasal</c>.</param>
/// <param name="ResolutionMicrometres">Its step.</param>
public sealed record RecordScale(int HomeMicrometres, string Direction, int ResolutionMicrometres);

/// <summary>What of the profile the record rests on.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Version">Its version.</param>
/// <param name="EqualWithinMicrometres">The limit of equal sizes.</param>
/// <param name="MinimumDirectGrade">The least direct grade for RL.</param>
/// <param name="MinimumNearGrade">The least near grade for A.</param>
/// <param name="NearDueAtMost">The direct grade at which the near response is due.</param>
/// <param name="DwellTolerancePercent">The tolerance on a dwell.</param>
/// <param name="SettingRepeatabilityMicrometres">The standard uncertainty from setting the edges.</param>
/// <param name="SettingRepeatabilityIsMeasured">Whether it was found by repeated settings.</param>
/// <param name="DarkSettledAfterMilliseconds">After how long in the dark an eye is taken as settled.</param>
public sealed record RecordProfile(
    string Name,
    int Version,
    int EqualWithinMicrometres,
    string MinimumDirectGrade,
    string MinimumNearGrade,
    string NearDueAtMost,
    int DwellTolerancePercent,
    int SettingRepeatabilityMicrometres,
    bool SettingRepeatabilityIsMeasured,
    int DarkSettledAfterMilliseconds
);

/// <summary>What each grade means.</summary>
/// <param name="Version">The legend's version.</param>
/// <param name="Grades">The texts for 0, 1, 2, 3 and 4.</param>
public sealed record RecordLegend(int Version, ValueList<string> Grades);

/// <summary>Where a step stands.</summary>
/// <param name="Step">The step in a word.</param>
/// <param name="State">Where it stands, in a word; only <c>done</c> means that it was examined.</param>
/// <param name="Missing">The eyes for which it lacks something.</param>
public sealed record RecordStep(string Step, string State, ValueList<string> Missing);

/// <summary>What went wrong, once for each kind and wording.</summary>
/// <param name="Kind">What, in a word.</param>
/// <param name="Detail">More; may be empty.</param>
/// <param name="Count">How often.</param>
/// <param name="FirstAt">When for the first time.</param>
/// <param name="LastAt">When for the last time.</param>
/// <param name="First">The entry of the first time.</param>
/// <param name="Last">The entry of the last time.</param>
public sealed record RecordIncident(
    string Kind,
    string Detail,
    int Count,
    string FirstAt,
    string LastAt,
    long First,
    long Last
);

/// <summary>What a person did to the exam as a whole.</summary>
/// <param name="Kind">What, in a word.</param>
/// <param name="Who">Who.</param>
/// <param name="At">When.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Patient">The patient it concerns.</param>
/// <param name="OtherExam">The other exam it concerns.</param>
/// <param name="Reason">Why.</param>
public sealed record RecordCourse(
    string Kind,
    string Who,
    string At,
    long Sequence,
    string? Patient,
    long? OtherExam,
    string? Reason
);
