using PupilBridge.Ports;
using PupilBridge.Worker.Lines;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Tests.Lines;

public sealed class PortWatchTests : IDisposable
{
    private readonly LineBench bench = new();
    private readonly MemoryLines lines = new();
    private readonly CancellationTokenSource stop = new();
    private volatile IReadOnlyList<string> present = [];
    private Task running = Task.CompletedTask;

    public void Dispose()
    {
        stop.Cancel();
        running.Wait(TimeSpan.FromSeconds(10));
        bench.Dispose();
        stop.Dispose();
    }

    private PortWatch Watch(params string[] ports)
    {
        foreach (var port in ports)
            bench.Around.Options.Ports.Add(port);
        bench.Around.Options.LookForPortsEvery = TimeSpan.FromMilliseconds(20);
        var watch = new PortWatch(bench.Around, new PortOpeners(new PortSettings(), lines).For, () => present);
        running = Task.Run(() => watch.RunAsync(stop.Token));
        return watch;
    }

    private MemoryLine Line(string name)
    {
        var line = new MemoryLine(name, TimeProvider.System);
        lines.Add(line);
        return line;
    }

    private PortPhase? PhaseOf(string port) =>
        bench.Around.Board.Look().Ports.FirstOrDefault(p => p.Port == port)?.Phase;

    [Fact]
    public async Task Ports_that_appear_are_served_and_those_that_go_are_forgotten()
    {
        var first = Line("one");
        var second = Line("two");
        await using var instrument = new LiveTestInstrument(first, TimeProvider.System, "T-1").Start();
        await using var another = new LiveTestInstrument(second, TimeProvider.System, "T-2").Start();
        var watch = Watch();
        await Task.Delay(60);
        Assert.Empty(watch.Served);

        present = [first.Name, second.Name];
        await Eventually.Is(() => PhaseOf(first.Name) == PortPhase.Live && PhaseOf(second.Name) == PortPhase.Live);

        second.Unplug();
        present = [first.Name];
        await Eventually.Is(() => PhaseOf(second.Name) is null && watch.Served.Count == 1);
        Assert.Equal(PortPhase.Live, PhaseOf(first.Name));

        second.Replug();
        present = [first.Name, second.Name];
        await Eventually.Is(() => PhaseOf(second.Name) == PortPhase.Live);
    }

    [Fact]
    public async Task No_more_ports_are_served_than_allowed()
    {
        bench.Around.Options.MaxPorts = 2;
        present = [Line("one").Name, Line("two").Name, Line("three").Name];
        var watch = Watch();
        await Eventually.Is(() => watch.Served.Count == 2);
        await Task.Delay(60);
        Assert.Equal(2, watch.Served.Count);
    }

    [Fact]
    public async Task Named_ports_are_served_and_no_others_and_an_absent_one_says_so()
    {
        var named = Line("named");
        Line("other");
        present = ["memory:other"];
        await using var instrument = new LiveTestInstrument(named, TimeProvider.System).Start();
        Watch(named.Name, "memory:absent");
        await Eventually.Is(() =>
            PhaseOf(named.Name) == PortPhase.Live && PhaseOf("memory:absent") == PortPhase.Absent
        );
        Assert.Null(PhaseOf("memory:other"));
        Assert.Contains(
            "There is no port memory:absent",
            bench.Status("memory:absent").Message,
            StringComparison.Ordinal
        );
        Assert.NotNull(bench.Status("memory:absent").NextTryAt);
    }

    [Fact]
    public async Task A_list_of_ports_that_cannot_be_read_stops_nothing()
    {
        var line = Line("one");
        await using var instrument = new LiveTestInstrument(line, TimeProvider.System).Start();
        var fails = 3;
        var watch = new PortWatch(
            bench.Around,
            new PortOpeners(new PortSettings(), lines).For,
            () => Interlocked.Decrement(ref fails) > 0 ? throw new IOException("no such folder") : [line.Name]
        );
        bench.Around.Options.LookForPortsEvery = TimeSpan.FromMilliseconds(20);
        running = Task.Run(() => watch.RunAsync(stop.Token));
        await Eventually.Is(() => PhaseOf(line.Name) == PortPhase.Live);
    }

    [Fact]
    public async Task Stopping_closes_all_ports()
    {
        var line = Line("one");
        await using var instrument = new LiveTestInstrument(line, TimeProvider.System).Start();
        present = [line.Name];
        Watch();
        await Eventually.Is(() => PhaseOf(line.Name) == PortPhase.Live);
        await stop.CancelAsync();
        await running.WaitAsync(TimeSpan.FromSeconds(2));
        Assert.False(line.HasHost);
    }

    [Fact]
    public async Task A_port_for_which_this_system_has_no_adapter_says_so_and_the_others_are_served()
    {
        var line = Line("one");
        await using var instrument = new LiveTestInstrument(line, TimeProvider.System).Start();
        bench.Around.Options.LookForPortsEvery = TimeSpan.FromMilliseconds(20);
        bench.Around.Options.Ports.Add("serial:/dev/ttyX1");
        bench.Around.Options.Ports.Add(line.Name);
        var watch = new PortWatch(
            bench.Around,
            address =>
                address.Adapter == PortAdapter.Memory
                    ? new PortOpeners(new PortSettings(), lines).For(address)
                    : throw new PlatformNotSupportedException("There is no such adapter here."),
            () => []
        );
        running = Task.Run(() => watch.RunAsync(stop.Token));
        await Eventually.Is(() => PhaseOf(line.Name) == PortPhase.Live);
        Assert.Equal(PortPhase.Unsuitable, PhaseOf("serial:/dev/ttyX1"));
    }
}
