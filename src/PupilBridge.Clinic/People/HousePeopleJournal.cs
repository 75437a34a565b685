using PupilBridge.Clinic.House;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.People;

/// <summary>Notes about people in the journal of a house.</summary>
/// <param name="house">The house.</param>
/// <param name="programVersion">The program's version, which stands in every entry.</param>
public sealed class HousePeopleJournal(IClinicHouse house, string programVersion) : IPeopleJournal
{
    /// <inheritdoc/>
    public Task RecordAsync(PersonNote note, CancellationToken cancellationToken) =>
        house.RecordAsync(Entry(note), cancellationToken);

    private PersonEntry Entry(PersonNote note) =>
        note switch
        {
            PersonChangeNote change => new PersonChanged
            {
                Id = IdOf(change.Id),
                Who = new PersonId(change.By),
                At = UtcTime.From(change.At),
                ProgramVersion = programVersion,
                Person = new PersonId(change.Person),
                // The same bits on both sides; the journal's format knows these four and no other.
                Roles = (PersonRoles)(int)change.Roles,
                IsEnabled = change.IsEnabled,
                What = change.What,
            },
            SignInNote signIn => new PersonSignedIn
            {
                Id = IdOf(signIn.Id),
                Who = new PersonId(signIn.By),
                At = UtcTime.From(signIn.At),
                ProgramVersion = programVersion,
                Person = new PersonId(signIn.Person),
                Kind = signIn.Event switch
                {
                    SignInEvent.SignedIn => SignInKind.SignedIn,
                    SignInEvent.SignedOff => SignInKind.SignedOff,
                    SignInEvent.SignedOffIdle => SignInKind.SignedOffIdle,
                    SignInEvent.SignedOffLongest => SignInKind.SignedOffLongest,
                    SignInEvent.LockedOut => SignInKind.LockedOut,
                    _ => SignInKind.Refused,
                },
                Where = signIn.Where,
            },
            _ => throw new ArgumentException(
                $"{note?.GetType().Name} is no note that the journal knows.",
                nameof(note)
            ),
        };

    private static EntryId IdOf(string text) =>
        EntryId.TryParse(text, out var id)
            ? id
            : throw new ArgumentException(
                $"'{text}' is no id of an entry; it has 32 hexadecimal digits.",
                nameof(text)
            );
}
