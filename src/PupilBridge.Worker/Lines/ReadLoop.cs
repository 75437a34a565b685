using PupilBridge.Ports;
using PupilBridge.Worker.Keeping;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// Reads a port to its end. It is never cancelled, since a read that is given up loses bytes: closing the port ends it. While the disk
/// does not keep up, it waits for room before it reads on.
/// </summary>
/// <param name="source">Where the line's entries wait for the disk.</param>
/// <param name="around">What all lines share.</param>
internal sealed class ReadLoop(EntrySource source, LineSurroundings around)
{
    /// <summary>How long a line is held back when the disk does not keep up, before it is read on without taking events.</summary>
    private static readonly TimeSpan HoldBack = TimeSpan.FromSeconds(1);

    /// <summary>Reads until the port ends.</summary>
    /// <param name="port">The port.</param>
    /// <param name="line">The line that the bytes are for.</param>
    /// <returns>Why the line ended, for a person.</returns>
    public async Task<string> RunAsync(IPort port, PortLine line)
    {
        var buffer = new byte[4096];
        try
        {
            while (true)
            {
                var count = await port.ReadAsync(buffer).ConfigureAwait(false);
                if (count == 0)
                    return line.Ending?.Message ?? $"The port {source.Name} was closed.";
                line.OnBytes(buffer.AsSpan(0, count));
                if (source.Waiting >= around.Options.WaitingPerSource)
                    await RoomAsync().ConfigureAwait(false);
            }
        }
        catch (Exception e)
        {
            // Whatever a port throws means that it is lost.
            return line.Ending?.Message ?? e.Message;
        }
    }

    private async Task RoomAsync()
    {
        try
        {
            var room = source.RoomAsync(around.Options.WaitingPerSource);
            await room.WaitAsync(HoldBack, around.Clock.Time).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            // Read on, so that heartbeats are heard and answered; events that find no room come again.
        }
    }
}
