using System.Runtime.InteropServices;

namespace PupilBridge.CommandLine;

/// <summary>
/// Ctrl-C and a request to terminate, as a token. The first asks the command to end in order; a second one is not held
/// back any more and ends the process at once.
/// </summary>
internal sealed class Interruptions : IDisposable
{
    private readonly CancellationTokenSource source = new();
    private readonly List<PosixSignalRegistration> registrations = [];

    /// <summary>Starts to listen to the signals.</summary>
    public Interruptions()
    {
        foreach (
            var signal in (ReadOnlySpan<PosixSignal>)[PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGQUIT]
        )
        {
            registrations.Add(PosixSignalRegistration.Create(signal, OnSignal));
        }
    }

    /// <summary>Cancelled by the first signal.</summary>
    public CancellationToken Token => source.Token;

    /// <inheritdoc/>
    public void Dispose()
    {
        registrations.ForEach(registration => registration.Dispose());
        source.Dispose();
    }

    private void OnSignal(PosixSignalContext context)
    {
        if (source.IsCancellationRequested)
        {
            return;
        }

        context.Cancel = true;
        source.Cancel();
    }
}
