using PupilBridge.Instrument;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Tests.Sessions;

/// <summary>A session and an instrument, joined in virtual time in steps of 20 ms.</summary>
internal sealed class SessionBench
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
    private static readonly TimeSpan StepTime = TimeSpan.FromMilliseconds(20);

    public SessionBench(TestInstrument? instrument = null, int waitingLimit = 512)
    {
        Instrument = instrument ?? new TestInstrument();
        Settings = new SessionSettings(new HostId(0xA1B2C3D4), "port-1", 115_200, waitingLimit);
        Session = new InstrumentSession(Settings, Around);
    }

    public SessionSettings Settings { get; }

    public FakeSurroundings Around { get; } = new();

    public TestInstrument Instrument { get; }

    public InstrumentSession Session { get; private set; }

    public TimeSpan At { get; private set; } = TimeSpan.FromSeconds(100);

    public Moment Now => new(At, Noon + At);

    /// <summary>What the line does to bytes on their way to the host.</summary>
    public Func<byte[], byte[]> ToHost { get; set; } = bytes => bytes;

    /// <summary>What the line does to bytes on their way to the instrument.</summary>
    public Func<byte[], byte[]> ToInstrument { get; set; } = bytes => bytes;

    /// <summary>How many entries the disk takes in each step.</summary>
    public int DiskTakes { get; set; } = int.MaxValue;

    public SessionBench Begin(ulong boot = 0xB007)
    {
        Instrument.SwitchOn(boot, At);
        Session.OnOpened(Now);
        return this;
    }

    public SessionBench Connected()
    {
        Begin();
        Run(2.5);
        Assert.True(Session.IsConnected);
        return this;
    }

    /// <summary>The line is lost and made again; what was under way is gone.</summary>
    public void Reopen(string reason = "unplugged")
    {
        Session.OnClosed(reason, Now);
        Around.ToInstrument.Clear();
        Instrument.ToHost.Clear();
        Session = new InstrumentSession(Settings, Around);
        Session.OnOpened(Now);
    }

    public void Run(double seconds)
    {
        for (var end = At + TimeSpan.FromSeconds(seconds); At < end; )
            StepOnce();
    }

    public void RunUntil(Func<bool> condition, double within = 60)
    {
        var end = At + TimeSpan.FromSeconds(within);
        while (!condition() && At < end)
            StepOnce();
        Assert.True(condition(), $"Not so within {within} s of virtual time.");
    }

    private void StepOnce()
    {
        At += StepTime;
        Instrument.Pass(At);
        Session.OnBytes(ToHost(Take(Instrument.ToHost)), Now);
        Around.MakeDurable(Session, Now, DiskTakes);
        if (Session.NextDue <= At)
            Session.OnTimePassed(Now);
        Instrument.Hear(ToInstrument(Take(Around.ToInstrument)), At);
    }

    private static byte[] Take(List<byte> bytes)
    {
        byte[] taken = [.. bytes];
        bytes.Clear();
        return taken;
    }
}
