using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Tests.Support;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.People;

public sealed class HousePeopleJournalTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private readonly TestHouse house = new();

    [Fact]
    public async Task A_change_becomes_an_entry_of_the_same_meaning_and_is_taken_once()
    {
        var journal = new HousePeopleJournal(house, "0.1.0");
        var note = new PersonChangeNote
        {
            Id = "00112233445566778899aabbccddeeff",
            By = "root (command line)",
            At = At,
            Person = "MK",
            Roles = ClinicRole.Clinician | ClinicRole.Administrator,
            IsEnabled = true,
            What = "roles, password",
        };
        await journal.RecordAsync(note, CancellationToken.None);
        await journal.RecordAsync(note, CancellationToken.None);
        var entry = Assert.IsType<PersonChanged>(Assert.Single(house.Journal));
        Assert.Equal(PersonRoles.Clinician | PersonRoles.Administrator, entry.Roles);
        Assert.Equal(
            ("root (command line)", "MK", true, "roles, password", "0.1.0"),
            (entry.Who.Value, entry.Person.Value, entry.IsEnabled, entry.What, entry.ProgramVersion)
        );
    }

    [Theory]
    [InlineData(SignInEvent.SignedIn, SignInKind.SignedIn)]
    [InlineData(SignInEvent.SignedOff, SignInKind.SignedOff)]
    [InlineData(SignInEvent.SignedOffIdle, SignInKind.SignedOffIdle)]
    [InlineData(SignInEvent.SignedOffLongest, SignInKind.SignedOffLongest)]
    [InlineData(SignInEvent.Refused, SignInKind.Refused)]
    [InlineData(SignInEvent.LockedOut, SignInKind.LockedOut)]
    public async Task A_sign_in_becomes_an_entry_of_the_same_meaning(SignInEvent told, SignInKind kept)
    {
        await new HousePeopleJournal(house, "0.1.0").RecordAsync(
            new SignInNote
            {
                Id = "00112233445566778899aabbccddeeff",
                By = "MK",
                At = At,
                Person = "MK",
                Event = told,
                Where = "QA-0001",
            },
            CancellationToken.None
        );
        var entry = Assert.IsType<PersonSignedIn>(Assert.Single(house.Journal));
        Assert.Equal((kept, "MK", "QA-0001"), (entry.Kind, entry.Person.Value, entry.Where));
    }

    [Fact]
    public void The_roles_of_the_desk_and_of_the_journal_are_the_same_bits() =>
        Assert.Equal(
            Enum.GetValues<PersonRoles>().Select(role => (role.ToString(), (int)role)),
            Enum.GetValues<ClinicRole>().Select(role => (role.ToString(), (int)role))
        );

    public void Dispose() => house.Dispose();
}
