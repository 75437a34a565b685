using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.Tests.Hosting;

namespace PupilBridge.Console.Tests.SignIn.Support;

/// <summary>The console with its real sign-in, real people on disk, and a clock that the test moves. It can be started anew.</summary>
internal sealed class SignInHouse : IDisposable
{
    public const string Good = "three quiet cranes";
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("console-sign-in-");
    private readonly RandomNumberGenerator random = RandomNumberGenerator.Create();
    private readonly Func<ConsoleSettings, ConsoleSettings>? adapt;
    private WebApplication app;

    public SignInHouse(Func<ConsoleSettings, ConsoleSettings>? adapt = null)
    {
        this.adapt = adapt;
        Clinic
            .Setup(desk => desk.ListInstrumentsAsync(It.IsAny<CancellationToken>()))
            .ReturnsAsync(new InstrumentList(true, [], [], null));
        Clinic
            .Setup(desk => desk.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
        People = new PeopleDesk(
            new PeopleParts
            {
                DataFolder = folder.FullName,
                Time = Time,
                Random = random,
                Journal = Journal,
                HashRounds = 1,
            }
        );
        app = Start();
    }

    public FakeTimeProvider Time { get; } = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));

    public PeopleDesk People { get; }

    public Notes Journal { get; } = new();

    public Mock<IClinicDesk> Clinic { get; } = new() { DefaultValue = DefaultValue.Mock };

    public ListedProposals Proposals { get; } = new();

    public string Folder => folder.FullName;

    public IEnumerable<RouteEndpoint> Routes =>
        app.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>();

    public HttpClient Client() => app.GetTestClient();

    public T Service<T>()
        where T : notnull => app.Services.GetRequiredService<T>();

    public Browser Browse() => new(() => app.GetTestClient());

    /// <summary>Adds a person.</summary>
    public async Task AddAsync(string who, ClinicRole roles)
    {
        var by = new Caller("AD", ClinicRole.Administrator);
        Assert.True((await People.AddAsync(by, who, roles, Good, CancellationToken.None)).Done);
    }

    public async Task ChangeAsync(string who, PersonChange change)
    {
        var by = new Caller("AD", ClinicRole.Administrator);
        Assert.True((await People.ChangeAsync(by, who, change, CancellationToken.None)).Done);
    }

    /// <summary>A browser in which somebody signed in.</summary>
    public async Task<Browser> SignedInAsync(string who, string password = Good)
    {
        var browser = Browse();
        await browser.SignInAsync(who, password);
        Assert.Equal(who, await browser.WhoAsync());
        return browser;
    }

    /// <summary>Stops the console and starts it on the same data folder.</summary>
    public void Restart()
    {
        app.DisposeAsync().AsTask().GetAwaiter().GetResult();
        app = Start();
    }

    public void Dispose()
    {
        app.DisposeAsync().AsTask().GetAwaiter().GetResult();
        People.Dispose();
        random.Dispose();
        folder.Delete(recursive: true);
    }

    private WebApplication Start()
    {
        var settings = StartedConsole.Settings(folder);
        var empty = new Mock<ILaneDesk>() { DefaultValue = DefaultValue.Mock };
        var records = new Mock<IRecordDesk>() { DefaultValue = DefaultValue.Mock };
        return StartedConsole.Start(
            adapt is null ? settings : adapt(settings),
            new ConsoleDesks(
                Clinic.Object,
                empty.Object,
                records.Object,
                new Mock<IBenchDesk>() { DefaultValue = DefaultValue.Mock }.Object,
                People
            )
            {
                Proposals = Proposals,
            },
            Time
        );
    }

    /// <summary>What was noted about people.</summary>
    public sealed class Notes : IPeopleJournal
    {
        private readonly List<PersonNote> notes = [];

        public IReadOnlyList<string> SignIns
        {
            get
            {
                lock (notes)
                {
                    return [.. notes.OfType<SignInNote>().Select(n => $"{n.Person} {n.Event} {n.Where}")];
                }
            }
        }

        public Task RecordAsync(PersonNote note, CancellationToken cancellationToken)
        {
            lock (notes)
            {
                if (notes.All(known => known.Id != note.Id))
                {
                    notes.Add(note);
                }
            }

            return Task.CompletedTask;
        }
    }
}
