using System.Runtime.InteropServices;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>Ctrl-C and a request to terminate, as a token; a second one ends the process at once.</summary>
internal sealed class Stopping : IDisposable
{
    private readonly CancellationTokenSource source = new();
    private readonly PosixSignalRegistration interrupt;
    private readonly PosixSignalRegistration terminate;

    public Stopping()
    {
        interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, OnSignal);
        terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, OnSignal);
    }

    public CancellationToken Token => source.Token;

    public void Dispose()
    {
        interrupt.Dispose();
        terminate.Dispose();
        source.Dispose();
    }

    private void OnSignal(PosixSignalContext context)
    {
        if (!source.IsCancellationRequested)
        {
            context.Cancel = true;
            source.Cancel();
        }
    }
}
