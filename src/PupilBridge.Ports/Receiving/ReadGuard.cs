namespace PupilBridge.Ports;

/// <summary>Tells the two mistakes of a reader before they can do harm: no room, and two reads at once.</summary>
internal sealed class ReadGuard(string port)
{
    private int reading;

    internal void Enter(Memory<byte> buffer)
    {
        if (buffer.IsEmpty)
        {
            throw new ArgumentException("A read needs room for at least one byte.", nameof(buffer));
        }

        if (Interlocked.Exchange(ref reading, 1) != 0)
        {
            throw new InvalidOperationException($"Another read of the port {port} is still waiting.");
        }
    }

    internal void Leave() => Volatile.Write(ref reading, 0);
}
