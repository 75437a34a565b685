using Microsoft.Extensions.Configuration;
using PupilBridge.Worker.Options;

namespace PupilBridge.Worker.Tests.Options;

public sealed class BridgeOptionsTests
{
    private static IReadOnlyList<string> Read(BridgeOptions options, params (string Key, string Value)[] values) =>
        BridgeOptionsReader.Read(
            new ConfigurationBuilder()
                .AddInMemoryCollection(
                    values.Select(v => KeyValuePair.Create<string, string?>("Bridge:" + v.Key, v.Value))
                )
                .Build(),
            options
        );

    [Fact]
    public void A_data_folder_is_enough()
    {
        var options = new BridgeOptions();
        Assert.Empty(Read(options, ("DataFolder", "/tmp/data")));
        Assert.Equal("/tmp/data", options.DataFolder);
        Assert.Equal(115_200, options.Baud);
    }

    [Fact]
    public void All_faults_are_named_at_once_each_with_key_value_and_range()
    {
        var faults = Read(
            new BridgeOptions(),
            ("Baud", "fast"),
            ("MaxPorts", "0"),
            ("WriteLimit", "0.01"),
            ("Prots", "auto"),
            ("ProfileFile", "/nowhere/at/all.json"),
            ("Ports", "auto,/dev/ttyUSB0")
        );

        Assert.Collection(
            faults.Order(StringComparer.Ordinal),
            f => Assert.Equal("Bridge:Baud is 'fast'; allowed is a whole number from 300 to 4000000.", f),
            f => Assert.Equal("Bridge:DataFolder is ''; allowed is a path to a folder.", f),
            f => Assert.Equal("Bridge:MaxPorts is '0'; allowed is a whole number from 1 to 256.", f),
            f => Assert.StartsWith("Bridge:Ports is 'auto,/dev/ttyUSB0'; allowed is", f, StringComparison.Ordinal),
            f => Assert.StartsWith("Bridge:ProfileFile is '/nowhere/at/all.json'", f, StringComparison.Ordinal),
            f => Assert.StartsWith("Bridge:Prots is no setting of the bridge", f, StringComparison.Ordinal),
            f => Assert.Equal("Bridge:WriteLimit is '0.01'; allowed is a number of seconds from 0.1 to 30.", f)
        );
    }

    [Fact]
    public void The_first_wait_may_not_exceed_the_longest()
    {
        var faults = Read(new BridgeOptions(), ("DataFolder", "d"), ("ReconnectFirst", "20"), ("ReconnectCap", "10"));
        Assert.Equal(
            "Bridge:ReconnectFirst is '20'; allowed is at most Bridge:ReconnectCap, which is '10'.",
            Assert.Single(faults)
        );
    }

    [Fact]
    public void Ports_are_read_as_a_text_with_commas_or_as_a_list()
    {
        var text = new BridgeOptions();
        Assert.Empty(Read(text, ("DataFolder", "d"), ("Ports", "/dev/ttyUSB0, tcp:localhost:4000")));
        var list = new BridgeOptions();
        Assert.Empty(Read(list, ("DataFolder", "d"), ("Ports:0", "/dev/ttyUSB0"), ("Ports:1", "tcp:localhost:4000")));
        Assert.Equal(["/dev/ttyUSB0", "tcp:localhost:4000"], text.Ports);
        Assert.Equal(text.Ports, list.Ports);
    }

    [Fact]
    public void A_port_may_be_named_once_only()
    {
        var fault = Assert.Single(Read(new BridgeOptions(), ("DataFolder", "d"), ("Ports", "/dev/a,/dev/a")));
        Assert.Contains("different addresses", fault, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_default_is_allowed()
    {
        var options = new BridgeOptions { DataFolder = "d" };
        Assert.True(new BridgeOptionsValidator().Validate(null, options).Succeeded);
        Assert.All(BridgeSettings.All, setting => Assert.True(setting.IsValid(options), setting.Key));
    }

    [Fact]
    public void Every_option_has_a_setting()
    {
        var properties = typeof(BridgeOptions).GetProperties().Select(p => p.Name).Order(StringComparer.Ordinal);
        Assert.Equal(properties, BridgeSettings.All.Select(s => s.Key).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_table_in_the_documentation_is_that_of_the_program()
    {
        var rows = BridgeSettings.All.Select(s =>
            $"| `{s.FullKey}` | {s.Meaning} | {Cell(s.Default)} | {s.Allowed.Replace("|", "\\|", StringComparison.Ordinal)} |"
        );
        var documented = File.ReadAllLines(Path.Combine(Top(), "docs", "operation.md"))
            .Where(line => line.StartsWith("| `Bridge:", StringComparison.Ordinal));
        Assert.Equal(rows, documented);
    }

    private static string Cell(string text) => text.StartsWith('(') ? text : $"`{text}`";

    private static string Top()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
            folder = folder.Parent ?? throw new DirectoryNotFoundException("The tests run outside the source tree.");
        return folder.FullName;
    }
}
