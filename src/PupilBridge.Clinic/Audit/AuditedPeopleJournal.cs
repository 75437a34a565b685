using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// Notes about people go into the journal, which is the truth of them, and then into the audit stream as well, so that one list shows who came
/// in and what they saw.
/// </summary>
/// <param name="journal">The journal.</param>
/// <param name="audit">The audit stream.</param>
public sealed class AuditedPeopleJournal(IPeopleJournal journal, IAuditLog audit) : IPeopleJournal
{
    /// <inheritdoc/>
    public async Task RecordAsync(PersonNote note, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(note);
        await journal.RecordAsync(note, cancellationToken).ConfigureAwait(false);
        await audit
            .NoteAsync(
                note switch
                {
                    SignInNote signIn => Of(note, What(signIn.Event), signIn.Person, signIn.Where),
                    PersonChangeNote change => Of(note, AuditWhat.Person, change.Person, change.What),
                    _ => Of(note, AuditWhat.Person, note.Person, null),
                }
            )
            .ConfigureAwait(false);
    }

    private static AuditNote Of(PersonNote note, string what, string subject, string? where) =>
        new()
        {
            At = note.At,
            Who = note.By,
            What = what,
            Way = AuditWay.Service,
            Path = where,
            Subject = subject,
        };

    private static string What(SignInEvent happened) =>
        happened switch
        {
            SignInEvent.SignedIn => AuditWhat.SignedIn,
            SignInEvent.SignedOff or SignInEvent.SignedOffIdle or SignInEvent.SignedOffLongest => AuditWhat.SignedOff,
            _ => AuditWhat.Refused,
        };
}
