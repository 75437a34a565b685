using System.Security.Cryptography;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

/// <summary>A data folder with people, a clock that the test moves, and a journal that the test can stop.</summary>
internal sealed class PeopleBench : IDisposable
{
    public const string Good = "three quiet cranes";
    public static readonly Caller Administrator = new("AD", ClinicRole.Administrator);

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("people-test-");
    private readonly RandomNumberGenerator random = RandomNumberGenerator.Create();

    public PeopleBench() => Desk = Open(Journal);

    public FakeTimeProvider Time { get; } = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));

    public NotedJournal Journal { get; } = new();

    public List<string> Remarks { get; } = [];

    public PeopleDesk Desk { get; }

    public string Folder => folder.FullName;

    public string File => Path.Combine(Folder, "access.json");

    /// <summary>Another program on the same data folder; without a journal it is a command beside the service.</summary>
    public PeopleDesk Open(IPeopleJournal? journal) =>
        new(
            new PeopleParts
            {
                DataFolder = Folder,
                Time = Time,
                Random = random,
                Journal = journal,
                // One round is enough to try the rest; that the hasher is the framework's is tried elsewhere.
                HashRounds = 1,
                Remark = Remarks.Add,
            }
        );

    public Task<SignInOutcome> SignInAsync(string who, string password = Good) =>
        Desk.SignInAsync(who, password, "QA-0001", CancellationToken.None);

    public async Task<PersonView> AddAsync(string who, ClinicRole roles)
    {
        var outcome = await Desk.AddAsync(Administrator, who, roles, Good, CancellationToken.None);
        Assert.True(outcome.Done, outcome.Words);
        return Desk.Find(who)!;
    }

    public Task<PersonOutcome> ChangeAsync(string who, PersonChange change) =>
        Desk.ChangeAsync(Administrator, who, change, CancellationToken.None);

    public void Dispose()
    {
        Desk.Dispose();
        random.Dispose();
        folder.Delete(recursive: true);
    }
}

/// <summary>A journal in memory that takes each note once, and can be out of order.</summary>
internal sealed class NotedJournal : IPeopleJournal
{
    public List<PersonNote> Notes { get; } = [];

    public bool IsBroken { get; set; }

    public IEnumerable<SignInEvent> SignIns => Notes.OfType<SignInNote>().Select(note => note.Event);

    public IEnumerable<string> Changes => Notes.OfType<PersonChangeNote>().Select(note => $"{note.Person} {note.What}");

    public Task RecordAsync(PersonNote note, CancellationToken cancellationToken)
    {
        if (IsBroken)
        {
            throw new IOException("the disk is full");
        }

        if (Notes.All(known => known.Id != note.Id))
        {
            Notes.Add(note);
        }

        return Task.CompletedTask;
    }
}
