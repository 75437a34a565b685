using PupilBridge.Ports;

namespace PupilBridge.Conformance.Lines;

/// <summary>An opened line with a clock: what trace and check see of a port. A simulation brings its own, without waiting.</summary>
public interface IWire
{
    /// <summary>The time since the port was opened.</summary>
    TimeSpan Now { get; }

    /// <summary>Waits for bytes.</summary>
    /// <param name="until">When to stop waiting, on <see cref="Now"/>'s scale.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>What arrived and when; no bytes if nothing came in time.</returns>
    /// <exception cref="PortLostException">The port is lost.</exception>
    ValueTask<Arrival> ReadAsync(TimeSpan until, CancellationToken cancel);

    /// <summary>Sends bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <exception cref="PortLostException">The port is lost.</exception>
    ValueTask WriteAsync(ReadOnlyMemory<byte> bytes);
}

/// <summary>Bytes that arrived.</summary>
/// <param name="Bytes">The bytes; may be none.</param>
/// <param name="At">When they did, since the port was opened.</param>
public readonly record struct Arrival(ReadOnlyMemory<byte> Bytes, TimeSpan At);
