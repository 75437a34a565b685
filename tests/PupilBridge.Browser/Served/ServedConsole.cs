using System.Text.Json;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Browser.Served;

/// <summary>
/// The real service with its web pages, in a data folder of its own and with instruments behind pseudo-terminals. The people are made
/// before it starts, as on the machine of a clinic.
/// </summary>
public sealed class ServedConsole : IAsyncDisposable
{
    /// <summary>Everybody's password.</summary>
    public const string Password = "crane 7 over harbour";

    /// <summary>The exit code of a command that a service on a busy machine did not answer in time.</summary>
    private const int NoAnswer = 9;

    private const int MostTries = 10;
    private const string AnyPort = "Web:Port=0";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);
    private readonly IReadOnlyList<string> ports;
    private readonly IReadOnlyList<string> settings;
    private ServiceProcess service;

    private ServedConsole(string folder, IReadOnlyList<string> ports, IReadOnlyList<string> settings)
    {
        Folder = folder;
        this.ports = ports;
        this.settings = settings;
        service = ServiceProcess.Start(DataFolder, ports, settings);
    }

    /// <summary>The folder of everything.</summary>
    public string Folder { get; }

    /// <summary>The service's data folder.</summary>
    public string DataFolder => DataFolderOf(Folder);

    /// <summary>Where the pages are.</summary>
    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    /// <summary>The service's process number.</summary>
    public int ProcessId => service.Id;

    /// <summary>What the service has said, for messages of failed tests.</summary>
    public string Said => service.Said;

    /// <summary>Makes the people, starts the service and waits until its pages answer.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="ports">The ports that it listens on.</param>
    /// <param name="settings">Settings besides.</param>
    public static async Task<ServedConsole> StartAsync(
        string folder,
        IReadOnlyList<string> ports,
        params string[] settings
    )
    {
        await People.MoveInAsync(DataFolderOf(folder), withExam: false).ConfigureAwait(false);
        return await OpenAsync(folder, ports, settings).ConfigureAwait(false);
    }

    /// <summary>The same with an exam that awaits review, and with no instrument.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="settings">Settings besides.</param>
    public static async Task<ServedConsole> StartWithExamAsync(string folder, params string[] settings)
    {
        await People.MoveInAsync(DataFolderOf(folder), withExam: true).ConfigureAwait(false);
        return await OpenAsync(folder, [Path.Combine(folder, "no-line")], settings).ConfigureAwait(false);
    }

    /// <summary>The same with nobody in it, as it is started for the first time.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="settings">Settings besides.</param>
    public static Task<ServedConsole> StartEmptyAsync(string folder, params string[] settings) =>
        OpenAsync(folder, [Path.Combine(folder, "no-line")], settings);

    private static async Task<ServedConsole> OpenAsync(string folder, IReadOnlyList<string> ports, string[] settings)
    {
        string[] own = ["Web:Enabled=true", AnyPort, "Bridge:ReconnectCap=1"];
        var console = new ServedConsole(folder, ports, [.. own, .. settings]);
        try
        {
            await console.AnswersAsync().ConfigureAwait(false);
            return console;
        }
        catch
        {
            await console.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>Kills the service without a word.</summary>
    public void Kill() => service.Kill();

    /// <summary>Stops the service in good order, so that its journal can be read.</summary>
    public void Stop() => service.Stop();

    /// <summary>Starts it again at the same address, as a machine does that starts it anew.</summary>
    public async Task StartAgainAsync()
    {
        service.Dispose();
        string[] samePort = [$"Web:Port={Address.Port}"];
        service = ServiceProcess.Start(DataFolder, ports, [.. settings.Where(s => s != AnyPort), .. samePort]);
        await AnswersAsync().ConfigureAwait(false);
    }

    private Task<ProgramRun> RunAsync(string[] words) =>
        ProgramRun.RunAsync([.. words, "--json", "--data", DataFolder]);

    /// <summary>Runs a command of the program beside the service and reads its JSON.</summary>
    /// <param name="words">The command, without <c>--json</c> and <c>--data</c>.</param>
    public async Task<JsonElement> AskAsync(params string[] words)
    {
        var run = await RunAsync(words).ConfigureAwait(false);
        for (var tries = 1; run.ExitCode == NoAnswer && tries < MostTries; tries++)
            run = await RunAsync(words).ConfigureAwait(false);
        if (run.ExitCode != 0)
            throw new InvalidOperationException($"'{string.Join(' ', words)}' ended with {run.ExitCode}: {run.Errors}");
        using var answer = JsonDocument.Parse(run.Output);
        return answer.RootElement.Clone();
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        service.Dispose();
        return ValueTask.CompletedTask;
    }

    private static string DataFolderOf(string folder) => Path.Combine(folder, "data");

    private async Task AnswersAsync()
    {
        var place = Path.Combine(DataFolder, "console.url");
        using var client = new HttpClient { Timeout = TimeSpan.FromSeconds(10) };
        await service
            .UntilAsync(
                async () => File.Exists(place) && await AnswersAtAsync(client, place).ConfigureAwait(false),
                Patience,
                "The pages did not answer"
            )
            .ConfigureAwait(false);
    }

    // The file may be that of the life before, or half written: only an answer counts.
    private async Task<bool> AnswersAtAsync(HttpClient client, string place)
    {
        try
        {
            var text = (await File.ReadAllTextAsync(place).ConfigureAwait(false)).Trim();
            if (!Uri.TryCreate(text, UriKind.Absolute, out var address))
                return false;
            using var answer = await client.GetAsync(new Uri(address, "/sign-in")).ConfigureAwait(false);
            Address = new Uri(address, "/");
            return (int)answer.StatusCode < 500;
        }
        catch (Exception problem) when (problem is HttpRequestException or IOException or TaskCanceledException)
        {
            return false;
        }
    }
}
