using System.Globalization;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Measure.Exchange;

/// <summary>A house that is nothing but an exam log on disk: what an export reads. There is no journal and no instrument.</summary>
internal sealed class StoredHouse(ExamLogStore log) : IClinicHouse
{
    public bool IsLive => false;

    public ExamBook Book => ExamBook.Empty;

    public CriteriaSettings Criteria => CriteriaSettings.Default;

    public string? Trouble => null;

    public string? ExamsWaitFor => null;

    public JournalPosition? Head => null;

    public Exam? FindSitting(ExamId id) =>
        log.FindExam(id.Value.ToString(CultureInfo.InvariantCulture)) is { } stored ? ExamDocuments.Read(stored) : null;

    public Exam ReadExam(StoredExam stored) => ExamDocuments.Read(stored);

    public IReadOnlySet<ExamId> ExamsAheadOfLog() => new HashSet<ExamId>();

    public PatientEntered? FindPatient(PatientId id) =>
        log.FindPatient(id.Value) is { } stored ? ExamDocuments.Read(stored) : null;

    public DayListEntered? FindDayList(DateOnly day) => null;

    public T ReadLog<T>(Func<ExamLogStore, T> read) => read(log);

    public LiveSnapshot Look() => new([], []);

    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() => throw Nothing();

    public SequencedEntry? ReadEntry(JournalSequence sequence) => throw Nothing();

    public bool IsKnown(EntryId id) => throw Nothing();

    public Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation) => throw Nothing();

    public Task AppliedAsync(JournalSequence sequence, CancellationToken cancellation) => throw Nothing();

    public Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation) =>
        throw Nothing();

    private static NotSupportedException Nothing() => new("An export asks for nothing but exams and patients.");
}
