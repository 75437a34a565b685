using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Findings;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.House;

/// <summary>What the desk needs of the house it stands in: one way in, for entries, and several ways to look.</summary>
/// <remarks>Safe for several threads.</remarks>
public interface IClinicHouse
{
    /// <summary>Whether lines to instruments are listened on.</summary>
    bool IsLive { get; }

    /// <summary>What is in force, the instruments and the open exams, by the entries that are on disk.</summary>
    ExamBook Book { get; }

    /// <summary>What the clinic set for the criteria.</summary>
    CriteriaSettings Criteria { get; }

    /// <summary>What the clinic set for the service bench.</summary>
    BenchSettings Bench => BenchSettings.Default;

    /// <summary>Why nothing can be recorded just now, for a person; null when all is well.</summary>
    string? Trouble { get; }

    /// <summary>Why exams cannot be shown and entered about just now, for a person; null when they can.</summary>
    string? ExamsWaitFor { get; }

    /// <summary>
    /// The end of the journal on disk, by which a paper can be held against the log later; null where no service runs that knows it.
    /// </summary>
    JournalPosition? Head { get; }

    /// <summary>Ports and instruments as they are just now.</summary>
    LiveSnapshot Look();

    /// <summary>The same, and the changes that follow it. Dispose the changes to stop.</summary>
    (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch();

    /// <summary>An exam or a bench run as the journal has it now.</summary>
    /// <param name="id">Its name.</param>
    /// <returns>Null if there is none.</returns>
    /// <exception cref="ExamLogBrokenException">It is an older one, and the exam log cannot be read now.</exception>
    Exam? FindSitting(ExamId id);

    /// <summary>An exam of a patient as the journal has it now.</summary>
    /// <param name="id">Its name.</param>
    /// <returns>Null if there is none, or if it is a bench run.</returns>
    /// <exception cref="ExamLogBrokenException">It is an older one, and the exam log cannot be read now.</exception>
    Exam? FindExam(ExamId id) => FindSitting(id) is { Bench: null } exam ? exam : null;

    /// <summary>A bench run as the journal has it now.</summary>
    /// <param name="id">Its name.</param>
    /// <returns>Null if there is none, or if it is an exam of a patient.</returns>
    /// <exception cref="ExamLogBrokenException">It is an older one, and the exam log cannot be read now.</exception>
    Exam? FindRun(ExamId id) => FindSitting(id) is { Bench: not null } run ? run : null;

    /// <summary>An exam that a list of the exam log brought along whole, as the journal has it now.</summary>
    /// <param name="stored">The exam as the list has it.</param>
    /// <returns>The exam; it is not read from the exam log a second time.</returns>
    /// <exception cref="System.Text.Json.JsonException">Something else is stored there.</exception>
    Exam ReadExam(StoredExam stored);

    /// <summary>
    /// The exams that the exam log may hold otherwise than the journal, or not yet. Ask before the log is read, and find them
    /// (<see cref="FindExam"/>) after: then nothing is left out, and nothing is older than what the log gave.
    /// </summary>
    IReadOnlySet<ExamId> ExamsAheadOfLog();

    /// <summary>What was entered last of a patient.</summary>
    /// <param name="id">The patient's number.</param>
    /// <returns>Null if nobody entered that number.</returns>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be read now.</exception>
    PatientEntered? FindPatient(PatientId id);

    /// <summary>The list of a day.</summary>
    /// <param name="day">The day, by the clinic's calendar.</param>
    /// <returns>Null if none was given.</returns>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be read now.</exception>
    DayListEntered? FindDayList(DateOnly day);

    /// <summary>The keys of what is sealed in the journal; null where nothing is.</summary>
    SubjectKeyStore? SubjectKeys => null;

    /// <summary>Waits until the exam log has been made anew after an erasure; it may be cut off by the end of the service.</summary>
    /// <param name="cancellation">Gives up waiting.</param>
    Task RenewedAsync(CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>Waits until the exam log holds all that <see cref="Book"/> has, so that what is listed from it is complete.</summary>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="ExamLogBrokenException">It cannot be written now.</exception>
    Task WrittenAsync(CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>The journal's entries before a place, from the first. They may be many.</summary>
    /// <param name="before">The place.</param>
    IEnumerable<SequencedEntry> ReadEntriesBefore(JournalSequence before) => [];

    /// <summary>One entry of the journal.</summary>
    /// <param name="sequence">Its place.</param>
    /// <returns>Null where no entry stands.</returns>
    /// <exception cref="JournalException">A newer version of the program wrote it.</exception>
    /// <exception cref="IOException">A file of the journal cannot be read.</exception>
    SequencedEntry? ReadEntry(JournalSequence sequence);

    /// <summary>Reads from the exam log.</summary>
    /// <typeparam name="T">What is read.</typeparam>
    /// <param name="read">Reads at once and leaves nothing lazy behind.</param>
    /// <returns>What was read.</returns>
    /// <exception cref="ExamLogBrokenException">It cannot be read now.</exception>
    T ReadLog<T>(Func<ExamLogStore, T> read);

    /// <summary>Whether an entry is recorded, or on its way to the disk.</summary>
    /// <param name="id">The entry's id.</param>
    /// <returns>True if it is.</returns>
    bool IsKnown(EntryId id);

    /// <summary>Records an entry, once, however often it is given.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="cancellation">Gives up waiting; the entry may be recorded all the same.</param>
    /// <returns>Its place in the journal once it is on disk.</returns>
    Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation);

    /// <summary>Waits until <see cref="Book"/> contains an entry.</summary>
    /// <param name="sequence">The entry's place.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    Task AppliedAsync(JournalSequence sequence, CancellationToken cancellation);

    /// <summary>Asks an instrument to switch itself off. Wish and outcome are journalled.</summary>
    /// <param name="serial">The instrument.</param>
    /// <param name="who">Who wishes it.</param>
    /// <param name="cancellation">Gives up waiting; the instrument may switch itself off all the same.</param>
    /// <returns>How it ended.</returns>
    Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation);
}
