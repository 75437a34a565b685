using System.Runtime.Versioning;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
[Collection("endurance")]
public sealed class CycleTests
{
    private const int WarmUpCycles = 20;
    private const int Cycles = 200;

    // The runtime's own pool may grow or shrink by a few meanwhile; a leak of one a cycle would be 200.
    private const int Slack = 10;
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);

    [Theory]
    [InlineData("terminal")]
    [InlineData("serial")]
    [InlineData("tcp")]
    public async Task Opening_unplugging_and_closing_leaves_no_descriptor_and_no_thread_behind(string adapter)
    {
        await using IInstrumentSide instrument =
            adapter == "tcp" ? new TcpPortListener() : new PseudoTerminal(TestLinks.Next());
        var address = adapter == "tcp" ? instrument.Address.Text : $"{adapter}:{instrument.Address.Target}";
        var opener = new PortOpeners(new PortSettings()).For(PortAddress.Parse(address));

        await Cycle(instrument, opener, WarmUpCycles);
        var (descriptors, threads) = Count();
        await Cycle(instrument, opener, Cycles);

        await Eventually.Is(
            () => Count() is var now && now.Descriptors <= descriptors + Slack && now.Threads <= threads + Slack,
            () => $"Descriptors and threads {(descriptors, threads)} -> {Count()}."
        );
    }

    private static async Task Cycle(IInstrumentSide instrument, IPortOpener opener, int count)
    {
        var buffer = new byte[64];
        for (var cycle = 0; cycle < count; cycle++)
        {
            await using var host = await opener.OpenAsync();
            await host.WriteAsync(new byte[] { 1 }, Deadline);
            Assert.True(await instrument.ReadAsync(buffer).AsTask().WaitAsync(Deadline) > 0);
            var reading = host.ReadAsync(buffer).AsTask();
            if (cycle % 2 == 0)
            {
                host.Close();
            }
            else
            {
                instrument.Unplug();
                instrument.Replug();
            }

            await Assert.ThrowsAnyAsync<Exception>(async () =>
            {
                if (await reading.WaitAsync(Deadline) == 0)
                {
                    throw new PortLostException(host.Name, "it was closed.");
                }
            });
            await host.DisposeAsync();
            // A TCP listener hangs up on a host that comes before it saw the last one go.
            await Eventually.Is(() => !instrument.HasHost);
        }
    }

    private static (int Descriptors, int Threads) Count() =>
        (Directory.GetFileSystemEntries("/proc/self/fd").Length, Directory.GetDirectories("/proc/self/task").Length);
}
