using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>ports</c> on the machine that the tests run on, whatever ports it has.</summary>
public sealed class PortsTests
{
    [Fact]
    public async Task The_list_as_json_is_an_array_with_the_names_to_use()
    {
        var outcome = await Invoked.Run("ports", "--json");
        Assert.Equal(ExitCode.Done, outcome.Code);
        using var document = JsonDocument.Parse(outcome.Out);
        Assert.Equal(JsonValueKind.Array, document.RootElement.ValueKind);
        Assert.All(
            document.RootElement.EnumerateArray(),
            port => Assert.NotEmpty(port.GetProperty("stableName").GetString()!)
        );
    }

    [Fact]
    public async Task The_list_as_text_has_a_row_for_each_port_or_says_that_there_is_none()
    {
        var json = await Invoked.Run("ports", "--json");
        using var document = JsonDocument.Parse(json.Out);
        var names = document
            .RootElement.EnumerateArray()
            .Select(port => port.GetProperty("stableName").GetString()!)
            .ToList();
        var outcome = await Invoked.Run("ports");
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.All(names, name => Assert.Contains(name, outcome.Out, StringComparison.Ordinal));
        if (names.Count == 0)
        {
            Assert.Contains("Plug in", outcome.Error, StringComparison.Ordinal);
        }
    }
}
