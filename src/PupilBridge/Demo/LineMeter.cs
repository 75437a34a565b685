using System.Threading.Channels;

namespace PupilBridge.Demo;

/// <summary>
/// Counts the bytes of the demo's line at both ends, so that the demo's clock can stand still while any are under way. On a
/// busy machine a reading thread may sleep for longer than the simulated seconds in which a line counts as dead.
/// </summary>
internal sealed class LineMeter
{
    private readonly Channel<bool> moved = Channel.CreateBounded<bool>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
    );
    private long said;
    private long taken;
    private long answered;
    private long heard;

    /// <summary>Whether the service has the port open.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Whether everything that either side sent has been taken by the other.</summary>
    public bool IsQuiet =>
        Interlocked.Read(ref taken) >= Interlocked.Read(ref said)
        && Interlocked.Read(ref heard) >= Interlocked.Read(ref answered);

    /// <summary>The service opened the port; what was sent before is gone.</summary>
    public void Opened()
    {
        Interlocked.Exchange(ref taken, Interlocked.Read(ref said));
        Interlocked.Exchange(ref heard, Interlocked.Read(ref answered));
        IsOpen = true;
    }

    /// <summary>The instrument sends.</summary>
    /// <param name="bytes">How many bytes.</param>
    public void Said(int bytes) => Interlocked.Add(ref said, bytes);

    /// <summary>The service has dealt with bytes of the instrument.</summary>
    /// <param name="bytes">How many bytes.</param>
    public void Taken(int bytes) => Add(ref taken, bytes);

    /// <summary>The service sends.</summary>
    /// <param name="bytes">How many bytes.</param>
    public void Answered(int bytes) => Interlocked.Add(ref answered, bytes);

    /// <summary>Bytes of the service arrived at the instrument.</summary>
    /// <param name="bytes">How many bytes.</param>
    public void Heard(int bytes) => Add(ref heard, bytes);

    /// <summary>Waits until something moved.</summary>
    /// <param name="enough">Gives up.</param>
    public async Task MovedAsync(CancellationToken enough) =>
        await moved.Reader.ReadAsync(enough).ConfigureAwait(false);

    private void Add(ref long counter, int bytes)
    {
        Interlocked.Add(ref counter, bytes);
        moved.Writer.TryWrite(true);
    }
}
