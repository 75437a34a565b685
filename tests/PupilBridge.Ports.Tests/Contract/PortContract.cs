namespace PupilBridge.Ports.Tests;

/// <summary>What every port promises, whatever carries it. One subclass per adapter runs all of it.</summary>
public abstract partial class PortContract : IAsyncLifetime
{
    /// <summary>Far more than anything here needs; only a hang reaches it.</summary>
    protected static readonly TimeSpan Deadline = TimeSpan.FromSeconds(30);

    /// <summary>What <see cref="IPort.Close"/> promises is 50 ms; the rest is for a test machine that is busy.</summary>
    private static readonly TimeSpan CloseLimit = TimeSpan.FromSeconds(2);

    private IInstrumentSide? instrument;
    private IPortOpener? opener;

    private protected IInstrumentSide Instrument => instrument!;

    private protected IPortOpener Opener => opener!;

    public Task InitializeAsync()
    {
        instrument = MakeInstrument();
        opener = MakeOpener(instrument);
        return Task.CompletedTask;
    }

    public async Task DisposeAsync() => await Instrument.DisposeAsync();

    private protected abstract IInstrumentSide MakeInstrument();

    private protected virtual IPortOpener MakeOpener(IInstrumentSide side) =>
        new PortOpeners(new PortSettings()).For(side.Address);

    /// <summary>Reads exactly so many bytes.</summary>
    private protected static async Task<byte[]> ReadExactly(IPort port, int count, Func<int>? roomFor = null)
    {
        var all = new byte[count];
        var have = 0;
        while (have < count)
        {
            var room = Math.Min(roomFor?.Invoke() ?? count, count - have);
            var read = await port.ReadAsync(all.AsMemory(have, room)).AsTask().WaitAsync(Deadline);
            Assert.True(read > 0, $"the port ended after {have} of {count} bytes");
            have += read;
        }

        return all;
    }

    /// <summary>Whether a read says that the port has ended, in one of the two ways it may.</summary>
    private protected static async Task<bool> Ended(Task<int> reading)
    {
        try
        {
            return await reading.WaitAsync(Deadline) == 0;
        }
        catch (PortLostException)
        {
            return true;
        }
    }

    /// <summary>Reads on until the port has ended.</summary>
    private protected static async Task ReadUntilEnded(IPort port)
    {
        var buffer = new byte[4096];
        while (!await Ended(port.ReadAsync(buffer).AsTask())) { }
    }
}
