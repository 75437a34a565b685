using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Configuration;

/// <summary>The settings: every fault at once, each with key, value, what is allowed, and where it stands.</summary>
public sealed class ConfigCommandTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Without_any_settings_the_defaults_are_valid()
    {
        var outcome = await Invoked.Run("config", "check", "--data", folder.Path);
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("valid", outcome.Out, StringComparison.Ordinal);
        Assert.Empty(outcome.Error);
    }

    [Fact]
    public async Task All_faults_come_at_once_each_with_its_key_and_its_source()
    {
        await Write(
            """
            {
              // Comments are welcome.
              "Bridge": { "Baud": "fast", "MaxPorts": 0, "Ports": "nowhere", "Bauds": 9600 },
              "Desk": { "MaxClients": 1000 },
              "Web": { "Enabled": "maybe" },
              "Logging": { "LogLevel": { "Default": "Loud" } },
              "Bridges": { "Baud": 9600 },
            }
            """
        );
        var outcome = await Invoked.Run("config", "check", "--data", folder.Path, "--set", "Bridge:WriteLimit=0");
        Assert.Equal(ExitCode.Configuration, outcome.Code);
        string[] keys =
        [
            "Bridge:Baud is 'fast'",
            "Bridge:MaxPorts is '0'",
            "Bridge:Ports",
            "Bridge:Bauds is no setting",
            "Bridge:WriteLimit is '0'",
            "Desk:MaxClients is '1000'",
            "Web:Enabled is 'maybe'",
            "Logging:LogLevel:Default is 'Loud'",
            "Bridges is no section",
        ];
        Assert.All(keys, key => Assert.Contains(key, outcome.Error, StringComparison.Ordinal));
        Assert.Contains("9 faults", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("(from the command line)", outcome.Error, StringComparison.Ordinal);
        Assert.Contains($"(from {folder.At("pupilbridge.json")})", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_no_json_is_named_with_its_line_and_the_rest_is_still_checked()
    {
        await Write("{\n  \"Bridge\": {\n    \"Baud\" 9600\n  }\n}\n");
        var outcome = await Invoked.Run("config", "check", "--data", folder.Path, "--set", "Web:Enabled=yes");
        Assert.Equal(ExitCode.Configuration, outcome.Code);
        Assert.Contains("line 3: not valid JSON", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("Web:Enabled is 'yes'", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_faults_as_json_can_be_read_by_a_program()
    {
        await Write("""{ "Bridge": { "Baud": 1 } }""");
        var outcome = await Invoked.Run("config", "check", "--data", folder.Path, "--json");
        Assert.Equal(ExitCode.Configuration, outcome.Code);
        using var document = JsonDocument.Parse(outcome.Out);
        Assert.False(document.RootElement.GetProperty("valid").GetBoolean());
        Assert.Equal("Bridge:Baud", document.RootElement.GetProperty("faults")[0].GetProperty("key").GetString());
    }

    [Fact]
    public async Task The_command_line_is_stronger_than_the_environment_and_that_is_stronger_than_a_file()
    {
        await Write("""{ "Bridge": { "Baud": 9600, "MaxPorts": 3, "WaitingPerSource": 7 } }""");
        using var run = Executable.Start(
            new Dictionary<string, string?>
            {
                ["PUPILBRIDGE_BRIDGE__BAUD"] = "19200",
                ["PUPILBRIDGE_BRIDGE__MAXPORTS"] = "4",
            },
            ["config", "show", "--json", "--data", folder.Path, "--set", "Bridge:Baud=57600"]
        );
        var outcome = await run.Ended();
        using var document = JsonDocument.Parse(outcome.Out);
        var values = document
            .RootElement.EnumerateArray()
            .ToDictionary(row => row.GetProperty("key").GetString()!, row => row.GetProperty("value").GetString());
        Assert.Equal("57600", values["Bridge:Baud"]);
        Assert.Equal("4", values["Bridge:MaxPorts"]);
        Assert.Equal("7", values["Bridge:WaitingPerSource"]);
        Assert.Equal("false", values["Web:Enabled"]);
    }

    [Theory]
    [InlineData("Bridge:Baud")]
    [InlineData("=9600")]
    public async Task A_set_without_key_or_value_is_refused_with_an_example(string given)
    {
        var outcome = await Invoked.Run("config", "check", "--data", folder.Path, "--set", given);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains("KEY=VALUE", outcome.Error, StringComparison.Ordinal);
    }

    private Task Write(string settings) => File.WriteAllTextAsync(folder.At("pupilbridge.json"), settings);
}
