using PupilBridge.Ports;
using PupilBridge.Simulator.CommandLine;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Scenarios;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.CommandLine;

public class SimulatorProgramTests
{
    [Theory]
    [InlineData("--help")]
    [InlineData("serve", "--help")]
    public async Task Help_ends_well_and_shows_an_example(params string[] words)
    {
        var (code, output, _) = await RunAsync(words);
        Assert.Equal(0, code);
        Assert.Contains("PupilBridge.Simulator serve --model quay-a --link", output, StringComparison.Ordinal);
        Assert.DoesNotContain("InstrumentModel {", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_names_everything_that_can_be_asked_for()
    {
        var (code, output, _) = await RunAsync("serve", "--list");
        Assert.Equal(0, code);
        var names = NamedScenarios.All.Select(s => s.Name).Concat(FaultCatalogue.All.Select(f => f.Name));
        Assert.All([.. names, "quay-a", "quay-b"], n => Assert.Contains($"  {n} ", output, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("There is no model 'quay-z'", "serve", "--model", "quay-z")]
    [InlineData("There is no scenario 'none'", "serve", "--scenario", "none")]
    [InlineData("There is no fault 'gremlin'", "serve", "--fault", "gremlin")]
    [InlineData("--pace must be above 0", "serve", "--pace", "-1")]
    [InlineData("--serial", "serve", "--serial", "with space")]
    public async Task Wrong_words_are_told_with_what_there_is(string message, params string[] words)
    {
        var (code, _, error) = await RunAsync(words);
        Assert.Equal(2, code);
        Assert.Contains(message, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_number_in_use_is_told()
    {
        await using var taken = new TcpPortListener();
        var (code, _, error) = await RunAsync("serve", "--tcp", $"{taken.Address.TcpTarget.Port}");
        Assert.Equal(1, code);
        Assert.Contains("another port", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_says_where_it_listens_examines_a_host_that_comes_and_ends_cleanly_when_stopped()
    {
        using var stop = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        using var output = new StringWriter();
        var writer = TextWriter.Synchronized(output);
        string[] words = ["serve", "--tcp", "0", "--scenario", "left-rapd", "--pace", "200", "--fault", "split"];
        var running = SimulatorProgram.RunAsync(words, writer, writer, TimeProvider.System, stop.Token);
        await Eventually.Is(() => Text().Contains("Ctrl-C", StringComparison.Ordinal));
        var address = Text().Split(" listens on ")[1].Split(". ")[0];
        var opener = new PortOpeners(new PortSettings()).For(PortAddress.Parse(address));
        await using (var port = await opener.OpenAsync())
        {
            var host = new PlainHost();
            var started = TimeProvider.System.GetTimestamp();
            await port.WriteAsync(host.Exchange([], TimeSpan.Zero), TimeSpan.FromSeconds(1));
            var buffer = new byte[4096];
            while (!Text().Contains("The exam is over", StringComparison.Ordinal))
            {
                var count = await port.ReadAsync(buffer);
                var reply = host.Exchange(buffer.AsSpan(0, count), TimeProvider.System.GetElapsedTime(started));
                await port.WriteAsync(reply, TimeSpan.FromSeconds(1));
            }
        }

        await stop.CancelAsync();
        Assert.Equal(0, await running);
        Assert.Contains("examiner: swinging, short dwell: left narrows less", Text(), StringComparison.Ordinal);
        Assert.Contains("fault split: happened", Text(), StringComparison.Ordinal);

        string Text()
        {
            lock (writer)
            {
                return output.ToString();
            }
        }
    }

    [Fact]
    public async Task As_in_life_its_ticks_follow_time_also_before_an_exam_and_while_nobody_records_it()
    {
        using var stop = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        using var output = new StringWriter();
        var writer = TextWriter.Synchronized(output);
        string[] words = ["serve", "--tcp", "0", "--scenario", "normal"];
        var running = SimulatorProgram.RunAsync(words, writer, writer, TimeProvider.System, stop.Token);
        await Eventually.Is(() => output.ToString().Contains("Ctrl-C", StringComparison.Ordinal));
        var address = output.ToString().Split(" listens on ")[1].Split(". ")[0];
        var opener = new PortOpeners(new PortSettings()).For(PortAddress.Parse(address));
        var host = new PlainHost { Acknowledges = false };
        await using (var port = await opener.OpenAsync())
        {
            var buffer = new byte[4096];
            while (host.Lines.Count(l => l.StartsWith("BEAT", StringComparison.Ordinal)) < 3)
            {
                var count = await port.ReadAsync(buffer);
                host.Exchange(buffer.AsSpan(0, count), TimeSpan.Zero);
            }
        }

        await stop.CancelAsync();
        Assert.Equal(0, await running);
        var ticks = host
            .Lines.Where(l => l.StartsWith("BEAT", StringComparison.Ordinal))
            .Select(l => long.Parse(l.Split(',')[2], System.Globalization.CultureInfo.InvariantCulture))
            .ToList();
        // By the clock there is a second between two of them; a loaded machine may make it more, never none.
        Assert.All(ticks.Zip(ticks.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, 500, 10_000));
    }

    private static async Task<(int Code, string Output, string Error)> RunAsync(params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await SimulatorProgram.RunAsync(words, output, error, TimeProvider.System, CancellationToken.None);
        return (code, output.ToString(), error.ToString());
    }
}
