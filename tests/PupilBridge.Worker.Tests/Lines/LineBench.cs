using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Lines;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Sessions;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests.Lines;

/// <summary>All that lines need, with a real journal in a folder of its own and the clock of the test's choice.</summary>
internal sealed class LineBench : IDisposable
{
    private readonly TempFolder folder = new();
    private readonly JournalThread thread;
    private readonly CancellationTokenSource stop = new();
    private readonly List<Task> running = [];

    public LineBench(TimeProvider? time = null)
    {
        var options = new BridgeOptions { DataFolder = folder.Path };
        var journal = new JournalFolder(folder.Path);
        thread = new JournalThread(JournalWriter.Open(Disk, new JournalOptions { Folder = journal }));
        var claims = new InstrumentClaims();
        var keeper = new JournalKeeper(thread, new KnownEntries(), claims);
        Around = new LineSurroundings(
            options,
            new HostId(0xA1B2C3D4),
            keeper,
            claims,
            new LiveBoard(options.ScreenBacklog),
            new MomentClock(time ?? TimeProvider.System),
            NullLogger.Instance
        );
    }

    public FailingDisk Disk { get; } = new();

    public LineSurroundings Around { get; }

    public PortSupervisor Serve(PupilBridge.Ports.IPortOpener opener)
    {
        var supervisor = new PortSupervisor(opener, Around, () => 1);
        running.Add(Task.Run(() => supervisor.RunAsync(stop.Token)));
        return supervisor;
    }

    public PortStatus Status(string port) => Around.Board.Look().Ports.Single(p => p.Port == port);

    public async Task StopAsync()
    {
        await stop.CancelAsync();
        await Task.WhenAll(running);
    }

    public void Dispose()
    {
        stop.Cancel();
        Task.WaitAll([.. running], TimeSpan.FromSeconds(10));
        thread.Dispose();
        stop.Dispose();
        folder.Dispose();
    }
}
