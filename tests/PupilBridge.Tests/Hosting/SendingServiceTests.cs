using System.Runtime.Versioning;
using Hl7.Fhir.Model;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Entries;
using PupilBridge.Scenarios.Sending;
using PupilBridge.Tests.Support;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Tests.Hosting;

/// <summary>The service as a process of its own sends to a real server, is killed in the middle, and is told what to do.</summary>
[SupportedOSPlatform("linux")]
public sealed class SendingServiceTests : IAsyncLifetime
{
    private readonly SendingHouse house = new();
    private SmallFhirServer server = null!;
    private ExamId exam;

    public async Task InitializeAsync()
    {
        server = await SmallFhirServer.StartAsync();
        exam = await house.SignAsync("Q-1001");
        await house.StopAsync();
    }

    public async Task DisposeAsync()
    {
        await server.DisposeAsync();
        await house.DisposeAsync();
    }

    [Fact]
    public async Task A_service_killed_while_the_server_is_slow_sends_each_record_once_all_the_same()
    {
        server.Faults = post => post == 1 ? ServerFault.Slow : ServerFault.None;
        server.Slowness = TimeSpan.FromMinutes(1);
        using (var killed = await ServeAsync())
        {
            await Eventually.Is(() => server.Shelf.Arrivals.Count == 1);
            killed.Kill();
            await killed.Ended();
        }

        using var again = await ServeAsync();
        await UntilListed("settled", "it was there already, when it was asked");
        Assert.Equal(1, server.Posts);
        Assert.Equal($"{exam}/1", Assert.Single(server.Shelf.Arrivals));
        Assert.Single(server.Shelf.All<DiagnosticReport>());
        Assert.Single(server.Shelf.All<Provenance>());
    }

    [Fact]
    public async Task What_was_refused_is_listed_by_the_service_and_sent_when_a_person_says_so()
    {
        server.Faults = post => post == 1 ? ServerFault.Refuses : ServerFault.None;
        using var service = await ServeAsync();
        var listed = await UntilListed("stopped", "this house takes no such record");
        Assert.Contains($"Records go to hospital, {server.Address}", listed.Error, StringComparison.Ordinal);

        var told = await Run("outbox", "retry", $"{exam}-1", "--reason", "they have put it right", "--who", "AD");
        Assert.Equal(ExitCode.Done, told.Code);
        await UntilListed("settled", "sent");
        Assert.Single(server.Shelf.Arrivals);
    }

    [Fact]
    public async Task Without_an_address_the_service_says_so_and_sends_nothing()
    {
        using var service = await ListeningAsync([]);
        var listed = await UntilListed("open", "waiting");
        Assert.Contains("No destination is set (Sending:Address)", listed.Error, StringComparison.Ordinal);
        Assert.Equal(0, server.Posts + server.Searches);
    }

    private Task<Executable> ServeAsync() =>
        ListeningAsync([
            "--set",
            $"Sending:Address={server.Address}",
            "--set",
            "Sending:Name=hospital",
            "--set",
            "Fhir:House=https://quayside.example/pupilbridge",
        ]);

    // A command that finds no service takes the folder for itself, so that none is given before the service has it.
    private async Task<Executable> ListeningAsync(string[] settings)
    {
        var service = Executable.Start(["serve", "--data", house.DataFolder, "--port", "memory:none", .. settings]);
        await service.Says("Listening on");
        return service;
    }

    private async Task<Outcome> UntilListed(string part, string words)
    {
        Outcome listed = null!;
        await Eventually.Is(async () =>
        {
            listed = await Run("outbox", "list", "--part", part);
            return listed.Code == ExitCode.Done && listed.Out.Contains(words, StringComparison.Ordinal);
        });
        return listed;
    }

    private Task<Outcome> Run(params string[] words) => Invoked.Run([.. words, "--data", house.DataFolder]);
}
