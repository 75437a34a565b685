using System.Globalization;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Hosting;

/// <summary><c>serve</c> as a process of its own: its start, its messages, its end, and what it does to others.</summary>
public sealed class ServeTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task It_tells_data_folder_ports_and_process_and_stops_cleanly()
    {
        using var service = await Start();
        Assert.Contains(folder.At("data"), service.Error, StringComparison.Ordinal);
        Assert.Contains(folder.At("no-port"), service.Error, StringComparison.Ordinal);
        Assert.Contains($"process {service.Id}", service.Error, StringComparison.Ordinal);
        service.Signal("TERM");
        var outcome = await service.Ended();
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.At("data", "run")));
        var verified = await Invoked.Run("journal", "verify", "--json", "--data", folder.At("data"));
        using var document = JsonDocument.Parse(verified.Out);
        Assert.True(document.RootElement.GetProperty("journal").GetProperty("endsCleanly").GetBoolean());
    }

    [Fact]
    public async Task Ctrl_C_stops_it_in_the_same_way()
    {
        using var service = await Start();
        service.Signal("INT");
        var outcome = await service.Ended();
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("has stopped", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_second_one_on_the_same_data_is_refused_with_the_process_that_holds_it()
    {
        using var service = await Start();
        var second = await Executable.Run("serve", "--data", folder.At("data"), "--port", folder.At("no-port"));
        Assert.Equal(ExitCode.InUse, second.Code);
        Assert.Contains(folder.At("data"), second.Error, StringComparison.Ordinal);
        Assert.Contains(service.Id.ToString(CultureInfo.InvariantCulture), second.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", second.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", second.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Hosting", second.Error, StringComparison.Ordinal);
        var asked = await Invoked.Run("exams", "list", "--json", "--data", folder.At("data"));
        Assert.Equal(ExitCode.Done, asked.Code);
    }

    [Fact]
    public async Task A_missing_port_comes_through_with_what_is_there()
    {
        using var service = await Start();
        await service.Says($"There is no port {folder.At("no-port")}");
    }

    [Fact]
    public async Task All_faults_of_its_settings_end_it_at_once()
    {
        Directory.CreateDirectory(folder.At("data"));
        await File.WriteAllTextAsync(
            folder.At("data", "pupilbridge.json"),
            """{ "Bridge": { "Baud": 1, "MaxPorts": "many" }, "Web": { "Port": "many" } }"""
        );
        var outcome = await Executable.Run("serve", "--data", folder.At("data"), "--port", "not a port");
        Assert.Equal(ExitCode.Configuration, outcome.Code);
        Assert.All(
            ["Bridge:Baud", "Bridge:MaxPorts", "Bridge:Ports", "Web:Port"],
            key => Assert.Contains(key, outcome.Error, StringComparison.Ordinal)
        );
        Assert.False(Directory.Exists(folder.At("data", "journal")));
    }

    [Fact]
    public async Task A_data_folder_that_cannot_be_made_is_named()
    {
        await File.WriteAllTextAsync(folder.At("file"), "");
        var outcome = await Executable.Run("serve", "--data", folder.At("file", "data"));
        Assert.Equal(ExitCode.Storage, outcome.Code);
        Assert.Contains(folder.At("file", "data"), outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
    }

    private async Task<Executable> Start()
    {
        var service = Executable.Start("serve", "--data", folder.At("data"), "--port", folder.At("no-port"));
        await service.Says("Listening on");
        return service;
    }
}
