using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.Tests.Lines;

/// <summary>A whole exam over real lines, much faster than life.</summary>
public sealed class ServedInstrumentTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(180);

    public static TheoryData<string> LinesToTry =>
        OperatingSystem.IsLinux() ? ["memory", "tcp", "terminal"] : ["memory", "tcp"];

    [Theory]
    [MemberData(nameof(LinesToTry))]
    public async Task A_whole_exam_over_a_line_equals_the_oracle(string kind)
    {
        var (side, opener) = Make(kind);
        await using var _ = side;
        var (instrument, host, spoken) = await ExamineAsync(side, opener, FaultSet.None);
        OracleCheck.Holds(instrument.Truth, host);
        Assert.Equal(instrument.Truth.Events.Count, host.Recorded.Count);
        Assert.IsType<SpokenJudgement.Ready>(spoken[^1]);
    }

    [Fact]
    public async Task The_same_seed_gives_the_same_exam_however_fast_the_machine_is()
    {
        var inMemory = WholeExam.Run(InstrumentModels.QuayA, NamedScenarios.FromSeed(5));
        var (side, opener) = Make("memory");
        await using var _ = side;
        var (_, host, spoken) = await ExamineAsync(side, opener, FaultSet.None);
        Assert.Equal(inMemory.Host.Recorded, host.Recorded);
        Assert.Equal(inMemory.Spoken, spoken);
    }

    [Fact]
    public async Task An_unplugged_cable_loses_the_port_and_no_event()
    {
        var (side, opener) = Make(OperatingSystem.IsLinux() ? "terminal" : "tcp");
        await using var _ = side;
        var faults = FaultSet.Create([FaultNames.Unplug], seed: 2, intensity: 60);
        var (instrument, host, _) = await ExamineAsync(side, opener, faults);
        Assert.True(faults.Fired[FaultNames.Unplug] > 0);
        OracleCheck.Holds(instrument.Truth, host);
    }

    [Fact]
    public async Task A_storm_over_a_line_loses_nothing_unsaid()
    {
        var (side, opener) = Make(OperatingSystem.IsLinux() ? "terminal" : "tcp");
        await using var _ = side;
        var faults = FaultSet.Create(["all"], seed: 4, intensity: 2);
        var (instrument, host, _) = await ExamineAsync(side, opener, faults, pace: 8);
        Assert.True(faults.Fired.Values.Count(v => v > 0) >= 8);
        OracleCheck.Holds(instrument.Truth, host);
    }

    private static (IInstrumentSide Side, IPortOpener Opener) Make(string kind)
    {
        switch (kind)
        {
            case "memory":
                var line = new MemoryLine("exam", TimeProvider.System);
                return (line, line.Host);
            case "tcp":
                var listener = new TcpPortListener();
                return (listener, new PortOpeners(new PortSettings()).For(listener.Address));
            default:
                var link = Path.Combine(Path.GetTempPath(), $"quay-{Guid.NewGuid():N}");
                var terminal = OperatingSystem.IsLinux() ? new PseudoTerminal(link) : throw new NotSupportedException();
                return (terminal, new PortOpeners(new PortSettings()).For(terminal.Address));
        }
    }

    private static async Task<(SimulatedInstrument, PlainHost, IReadOnlyList<SpokenJudgement>)> ExamineAsync(
        IInstrumentSide side,
        IPortOpener opener,
        FaultSet faults,
        double pace = 100
    )
    {
        using var limit = new CancellationTokenSource(Patience);
        var instrument = new SimulatedInstrument(
            InstrumentModels.QuayA,
            new SerialNumber("QA-0042"),
            seed: 5,
            new InstrumentOptions { BytesPerSecond = null }
        );
        instrument.SwitchOn();
        await using var served = new ServedInstrument(instrument, side, TimeProvider.System, faults, pace)
        {
            WaitsForExam = true,
        };
        var exam = new SimulatedExam(NamedScenarios.FromSeed(5), instrument);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(limit.Token);
        var host = new PlainHost();
        var serving = served.RunAsync(stop.Token);
        var hosting = HostAsync(opener, host, stop.Token);
        await served.ExamineAsync(exam, new Silent(), allRecorded: null, limit.Token);
        served.EndFaults();
        await served.WhenAllAcknowledgedAsync(limit.Token);
        await stop.CancelAsync();
        await serving;
        await hosting;
        return (instrument, host, exam.Spoken);
    }

    // Opens again whenever the port is lost, as a host does.
    private static async Task HostAsync(IPortOpener opener, PlainHost host, CancellationToken stop)
    {
        var started = TimeProvider.System.GetTimestamp();
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await using var port = await opener.OpenAsync();
                using var closing = stop.Register(port.Close);
                host.Reopen();
                await TalkAsync(port, host, started, stop);
            }
            catch (IOException) when (!stop.IsCancellationRequested)
            {
                await Task.Delay(20, CancellationToken.None);
            }
            catch (IOException)
            {
                return;
            }
        }
    }

    private static async Task TalkAsync(IPort port, PlainHost host, long started, CancellationToken stop)
    {
        var limit = TimeSpan.FromSeconds(1);
        await port.WriteAsync(host.Exchange([], TimeProvider.System.GetElapsedTime(started)), limit);
        var buffer = new byte[4096];
        int count;
        while ((count = await port.ReadAsync(buffer)) > 0 && !stop.IsCancellationRequested)
        {
            var reply = host.Exchange(buffer.AsSpan(0, count), TimeProvider.System.GetElapsedTime(started));
            await port.WriteAsync(reply, limit);
        }
    }

    private sealed class Silent : IExaminerVoice
    {
        public ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel) => ValueTask.CompletedTask;
    }
}
