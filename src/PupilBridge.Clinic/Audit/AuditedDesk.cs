using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// The desks with a note of whatever is shown of patients, before it is shown. Console, web API and commands all read through it. What is
/// entered stands in the journal anyway; of that only an erasure is noted here too.
/// </summary>
/// <param name="clinic">Entries and lists.</param>
/// <param name="lanes">Lanes; null where no service runs.</param>
/// <param name="records">Records.</param>
/// <param name="bench">The service bench.</param>
/// <param name="audit">Where it is noted.</param>
/// <param name="reader">Who reads.</param>
/// <param name="time">The clock.</param>
public sealed partial class AuditedDesk(
    IClinicDesk clinic,
    ILaneDesk? lanes,
    IRecordDesk records,
    IBenchDesk bench,
    IAuditLog audit,
    AuditReader reader,
    TimeProvider time
) : IClinicDesk, ILaneDesk, IRecordDesk, IBenchDesk
{
    /// <inheritdoc cref="IClinicDesk.EnterAsync"/>
    public async Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken)
    {
        if (entry is ErasePatientEntry erase)
        {
            // Before it is carried out: afterwards there is no key under which to say whom it was about.
            await audit
                .NoteAsync(Note(AuditWhat.Erase) with { Asked = erase.Patient, Subject = erase.Who })
                .ConfigureAwait(false);
        }

        return await clinic.EnterAsync(entry, cancellationToken).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public Task<SwitchOffOutcome> SwitchOffAsync(string instrument, string who, CancellationToken cancellationToken) =>
        Lanes.SwitchOffAsync(instrument, who, cancellationToken);

    /// <inheritdoc/>
    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        clinic.ListInstrumentsAsync(cancellationToken);

    /// <inheritdoc/>
    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        clinic.AskedForAsync(exam, cancellationToken);

    /// <summary>Lists notes, and notes that they were listed.</summary>
    /// <param name="search">Which ones.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    public Task<AuditPage> ListAuditAsync(AuditSearch search, CancellationToken cancellationToken) =>
        NotedAsync(
            audit.ListAsync(search, cancellationToken),
            page => Note(AuditWhat.Audit) with { Lines = page.Lines.Count }
        );

    /// <summary>Notes that a backup was begun.</summary>
    /// <param name="account">The account of whoever begins it.</param>
    /// <param name="destination">Where it goes.</param>
    public Task NoteBackupAsync(string account, string destination) =>
        audit.NoteAsync(
            AuditReader.OfCommand(account).Note(AuditWhat.Backup, time.GetUtcNow()) with
            {
                Subject = destination,
            }
        );

    private ILaneDesk Lanes => lanes ?? throw new InvalidOperationException("Lanes are the running service's.");

    private AuditNote Note(string what) => reader.Note(what, time.GetUtcNow());

    private async Task<T> NotedAsync<T>(Task<T> asked, Func<T, AuditNote?> note)
    {
        var answer = await asked.ConfigureAwait(false);
        if (answer is not null && note(answer) is { } seen)
        {
            await audit.NoteAsync(seen).ConfigureAwait(false);
        }

        return answer;
    }

    private AuditNote List(string what, IEnumerable<string?> patients)
    {
        var shown = patients.ToList();
        return Note(what) with
        {
            Lines = shown.Count,
            Patients = [.. shown.OfType<string>().Distinct().Take(AuditNote.MostPatients)],
        };
    }

    private AuditNote OfExam(string what, ExamSummary exam) => OfExam(what, exam.Exam, exam.Patient);

    private AuditNote OfExam(string what, long exam, string? patient) =>
        Note(what) with
        {
            Exam = exam,
            Patients = patient is null ? [] : [patient],
        };

    private async IAsyncEnumerable<T> WatchedAsync<T>(
        string? instrument,
        IAsyncEnumerable<T> watched,
        [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation = default
    )
    {
        await audit.NoteAsync(Note(AuditWhat.Lane) with { Subject = instrument }).ConfigureAwait(false);
        await foreach (var one in watched.WithCancellation(cancellation).ConfigureAwait(false))
        {
            yield return one;
        }
    }
}
