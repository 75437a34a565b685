using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Worker.Sessions;
using PupilBridge.Worker.Tests.Sessions;

namespace PupilBridge.Worker.Tests.Lines;

/// <summary>An instrument that speaks over one end of a line, in the time of the clock given.</summary>
internal sealed class LiveTestInstrument : IAsyncDisposable
{
    private readonly Lock gate = new();
    private readonly IInstrumentSide side;
    private readonly MomentClock clock;
    private readonly TestInstrument instrument;
    private readonly SemaphoreSlim toSend = new(0);
    private ITimer? timer;
    private Task running = Task.CompletedTask;
    private volatile bool over;

    public LiveTestInstrument(IInstrumentSide side, TimeProvider time, string serial = "T-100")
        : this(side, time, new TestInstrument(serial)) { }

    public LiveTestInstrument(IInstrumentSide side, TimeProvider time, TestInstrument instrument)
    {
        this.side = side;
        clock = new MomentClock(time);
        this.instrument = instrument;
    }

    /// <summary>How it answers commands; null leaves them without an answer.</summary>
    public CommandAnswer? Answers { get; set; }

    public int Kept
    {
        get
        {
            lock (gate)
                return instrument.State.KeptCount;
        }
    }

    public LiveTestInstrument Start(ulong boot = 0xB007)
    {
        Do((i, at) => i.SwitchOn(boot, at));
        running = Task.WhenAll(Task.Run(ReadAsync), Task.Run(WriteAsync));
        var tick = TimeSpan.FromMilliseconds(100);
        timer = clock.Time.CreateTimer(_ => Do((i, at) => i.Pass(at)), null, tick, tick);
        return this;
    }

    public void Rest(Eye eye, int micrometres) => Do((i, at) => i.Rest(eye, micrometres, at));

    public void Do(Action<TestInstrument, TimeSpan> act)
    {
        lock (gate)
            act(instrument, clock.Now.Monotonic);
        toSend.Release();
    }

    public async ValueTask DisposeAsync()
    {
        over = true;
        if (timer is not null)
            await timer.DisposeAsync();
        side.Close();
        toSend.Release();
        await running;
    }

    private async Task ReadAsync()
    {
        var buffer = new byte[1024];
        while (!over)
        {
            var count = await side.ReadAsync(buffer);
            if (count > 0)
                Do((i, at) => Hear(i, buffer.AsSpan(0, count), at));
            else if (!over)
                await Task.Delay(5);
        }
    }

    private void Hear(TestInstrument heard, ReadOnlySpan<byte> bytes, TimeSpan at)
    {
        heard.Hear(bytes, at);
        if (Answers is not { } answer)
            return;
        foreach (var command in heard.Commands.ToArray())
            heard.Answer(command, answer, at);
        heard.Commands.Clear();
    }

    private async Task WriteAsync()
    {
        while (!over)
        {
            await toSend.WaitAsync();
            byte[] bytes;
            lock (gate)
            {
                bytes = [.. instrument.ToHost];
                instrument.ToHost.Clear();
            }

            try
            {
                await side.WriteAsync(bytes, TimeSpan.FromSeconds(30));
            }
            catch (PortLostException)
            {
                // The host is gone; the link sends again what is not acknowledged.
            }
        }
    }
}
