using System.Security.Cryptography;
using System.Text.Json;
using PupilBridge.Clinic.People;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>
/// The real executable with its console on loopback, people, a program's key and one patient's exam, at its most talkative. Every attack runs
/// against the same one, so that what one of them leaves behind would show in the next.
/// </summary>
public sealed class AttackedService : IAsyncLifetime
{
    /// <summary>Everybody's password.</summary>
    public const string Password = "crane 7 over harbour";

    /// <summary>Examines.</summary>
    public const string Examiner = "HV";

    /// <summary>Reviews and signs.</summary>
    public const string Clinician = "TL";

    /// <summary>Looks after the instruments; may see nothing of patients.</summary>
    public const string Technician = "RS";

    /// <summary>Looks after the people.</summary>
    public const string Administrator = "AB";

    /// <summary>The account whose lock is attacked.</summary>
    public const string Victim = "VX";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    /// <summary>Examiners of whom each signs in for one test alone, since a name may be tried ten times a minute.</summary>
    private static readonly string[] Fresh = ["F1", "F2", "F3", "F4", "F5", "F6", "F7", "F8"];

    private readonly Dictionary<string, Visitor> signedIn = new(StringComparer.Ordinal);
    private ServiceProcess? service;
    private string exam = "";

    /// <summary>The folder of everything.</summary>
    public DirectoryInfo Folder { get; } = Directory.CreateTempSubdirectory("pb-attacked-");

    /// <summary>The service's data folder.</summary>
    public string DataFolder { get; private set; } = "";

    /// <summary>Where the console is.</summary>
    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    /// <summary>A key that opens records and patients.</summary>
    public string Key { get; private set; } = "";

    /// <summary>What the service has said so far.</summary>
    public string Said => service!.Said;

    /// <summary>The value of the header <c>Host</c> that is right.</summary>
    public string Host => Address.Authority;

    /// <summary>Raw bytes to the console.</summary>
    internal RawHttp Raw => new(Address.Port);

    /// <inheritdoc/>
    public async Task InitializeAsync()
    {
        using var demo = JsonDocument.Parse(
            await RunAsync("", "demo", "--scenario", "right-rapd-marked", "--json", "--data", Folder.FullName)
        );
        DataFolder = demo.RootElement.GetProperty("folder").GetString()!;
        await MoveInAsync();
        var made = await RunAsync(
            "",
            ["keys", "add", "registry", "--scope", "records", "--scope", "patients", "--data", DataFolder]
        );
        Key = made.Split('\n', StringSplitOptions.TrimEntries)
            .Single(line => line.StartsWith("pbk_", StringComparison.Ordinal));
        service = ServiceProcess.Start(
            DataFolder,
            [Path.Combine(Folder.FullName, "no-line")],
            ["Web:Enabled=true", "Web:Port=0", "Logging:LogLevel:Default=Trace", "Logging:LogLevel:Microsoft=Trace"]
        );
        var place = Path.Combine(DataFolder, "console.url");
        await service.UntilAsync(() => Task.FromResult(File.Exists(place)), Patience, "The console did not start");
        Address = new Uri((await File.ReadAllTextAsync(place)).Trim());
        exam = await ExamAsync();
        Assert.Contains("\"", exam, StringComparison.Ordinal);
    }

    /// <inheritdoc/>
    public Task DisposeAsync()
    {
        foreach (var visitor in signedIn.Values)
            visitor.Dispose();
        service?.Dispose();
        Folder.Delete(recursive: true);
        return Task.CompletedTask;
    }

    /// <summary>A browser that nobody signed in with.</summary>
    internal Visitor Visit() => new(Address);

    /// <summary>The browser in which somebody is signed in all the time; whoever asks must leave it so.</summary>
    internal async Task<Visitor> SignedInAsync(string who)
    {
        if (!signedIn.TryGetValue(who, out var visitor))
            signedIn[who] = visitor = await FreshAsync(who);
        return visitor;
    }

    /// <summary>A browser of its own in which somebody signed in just now.</summary>
    internal async Task<Visitor> FreshAsync(string who)
    {
        var visitor = Visit();
        await visitor.SignInAsync(who, Password);
        Assert.Equal(who, await visitor.WhoAsync());
        return visitor;
    }

    /// <summary>After an attack: the service answers, the exam is what it was, and no stack trace was written.</summary>
    public async Task StandsAsync()
    {
        using var visitor = Visit();
        Assert.Equal(System.Net.HttpStatusCode.OK, (await visitor.GetAsync("/sign-in")).Status);
        Assert.Equal(exam, await ExamAsync());
        var bad = Said.Split('\n')
            .Where(line =>
                line.Contains("ERROR", StringComparison.Ordinal) || line.StartsWith("   at ", StringComparison.Ordinal)
            );
        Assert.Empty(bad);
    }

    /// <summary>Runs a command of the program to its end.</summary>
    /// <returns>Its standard output.</returns>
    public static async Task<string> RunAsync(string input, params string[] words)
    {
        var run = await ProgramRun.RunWithInputAsync(input, words);
        Assert.True(run.ExitCode == 0, $"'{string.Join(' ', words)}' ended with {run.ExitCode}: {run.Errors}");
        return run.Output;
    }

    private async Task MoveInAsync()
    {
        using var random = RandomNumberGenerator.Create();
        using var people = new PeopleDesk(
            new PeopleParts
            {
                DataFolder = DataFolder,
                Time = TimeProvider.System,
                Random = random,
            }
        );
        var by = new Caller("(test)", ClinicRole.Administrator);
        (string, ClinicRole)[] all =
        [
            (Administrator, ClinicRole.Administrator),
            (Examiner, ClinicRole.Examiner),
            (Clinician, ClinicRole.Clinician),
            (Technician, ClinicRole.Technician),
            (Victim, ClinicRole.Examiner),
            .. Fresh.Select(who => (who, ClinicRole.Examiner)),
        ];
        foreach (var (who, role) in all)
            Assert.True((await people.AddAsync(by, who, role, Password, CancellationToken.None)).Done);
    }

    private async Task<string> ExamAsync()
    {
        using var client = new HttpClient { BaseAddress = Address };
        client.DefaultRequestHeaders.Authorization = new("Bearer", Key);
        return await client.GetStringAsync(new Uri("/api/v1/exams", UriKind.Relative));
    }
}

/// <summary>All attacks share one service, one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class AttackedServiceGroup : ICollectionFixture<AttackedService>
{
    /// <summary>The group's name.</summary>
    public const string Name = "attacked service";
}
