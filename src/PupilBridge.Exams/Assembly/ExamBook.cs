using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly;

/// <summary>
/// Everything that the reducer must remember between two entries: what is in force, the state of each instrument, and the
/// exams that take events, and which numbers are one patient. Its size does not grow with the journal but with the mergings that
/// stand: an exam leaves it when it is over.
/// </summary>
public sealed record ExamBook
{
    /// <summary>The book before the first entry.</summary>
    public static ExamBook Empty { get; } = new();

    /// <summary>The last entry that was applied.</summary>
    public JournalSequence LastApplied { get; init; }

    /// <summary>The profile in force.</summary>
    public Profile Profile { get; init; } = Profile.Default;

    /// <summary>The program's version by the last start; <c>?</c> before the first.</summary>
    public string ProgramVersion { get; init; } = "?";

    /// <summary>The instruments by serial number, in the order of its characters' codes.</summary>
    public ImmutableSortedDictionary<string, LaneState> Lanes { get; init; } =
        ImmutableSortedDictionary.Create<string, LaneState>(StringComparer.Ordinal);

    /// <summary>The exams that take events.</summary>
    public ImmutableSortedDictionary<ExamId, Exam> OpenExams { get; init; } =
        ImmutableSortedDictionary<ExamId, Exam>.Empty;

    /// <summary>The bench runs that take events.</summary>
    public ImmutableSortedDictionary<ExamId, Exam> OpenRuns { get; init; } =
        ImmutableSortedDictionary<ExamId, Exam>.Empty;

    /// <summary>Which patients' numbers stand for one person.</summary>
    public PatientMergings Mergings { get; init; } = PatientMergings.None;

    /// <summary>The sets of reference discs by name, each as it was entered last; a house has few.</summary>
    public ImmutableSortedDictionary<string, DiscSetEntered> DiscSets { get; init; } =
        ImmutableSortedDictionary.Create<string, DiscSetEntered>(StringComparer.Ordinal);

    /// <summary>The number that the next calibration certificate gets.</summary>
    public long NextCertificate { get; init; } = 1;

    /// <summary>The last erasure of a patient; 0 if there was none.</summary>
    public JournalSequence LastErasure { get; init; }

    /// <summary>The state of one instrument.</summary>
    /// <param name="serial">Its serial number.</param>
    /// <returns>The state; null if the journal never mentioned it.</returns>
    public LaneState? Lane(SerialNumber serial) => Lanes.GetValueOrDefault(serial.Value);

    /// <summary>The exam that takes an instrument's events.</summary>
    /// <param name="serial">The instrument's serial number.</param>
    /// <returns>The exam; null if none is open.</returns>
    public Exam? OpenExamOf(SerialNumber serial) =>
        Lane(serial)?.OpenExam is { } id ? OpenExams.GetValueOrDefault(id) : null;

    /// <summary>The bench run that takes an instrument's events.</summary>
    /// <param name="serial">The instrument's serial number.</param>
    /// <returns>The run; null if none is open.</returns>
    public Exam? OpenRunOf(SerialNumber serial) =>
        Lane(serial)?.OpenExam is { } id ? OpenRuns.GetValueOrDefault(id) : null;

    /// <summary>
    /// The instruments whose open exam has been silent for as long as the profile allows. The caller journals
    /// <see cref="SilenceReached"/> for each, so that the end of the exam stands in the journal.
    /// </summary>
    /// <param name="now">The time now.</param>
    /// <returns>Their serial numbers, in order.</returns>
    public ImmutableArray<SerialNumber> SilentAt(UtcTime now) =>
        [
            .. Lanes
                .Values.Where(lane => OpenSittingOf(lane.Serial) is { } sitting && Silence.IsOver(sitting, now))
                .Select(lane => lane.Serial),
        ];

    /// <summary>Whatever takes an instrument's events: an exam or a bench run.</summary>
    /// <param name="serial">The instrument's serial number.</param>
    /// <returns>Null if nothing does.</returns>
    public Exam? OpenSittingOf(SerialNumber serial) => OpenExamOf(serial) ?? OpenRunOf(serial);
}
