namespace PupilBridge.Ports;

/// <summary>Turns an address into an opener of the right adapter.</summary>
/// <param name="settings">How serial lines and connections are opened.</param>
/// <param name="memory">The memory lines that addresses may name; null for none.</param>
public sealed class PortOpeners(PortSettings settings, MemoryLines? memory = null)
{
    private readonly MemoryLines memory = memory ?? new MemoryLines();

    /// <summary>The opener for an address.</summary>
    /// <param name="address">The address.</param>
    /// <exception cref="PlatformNotSupportedException">This system has no such adapter.</exception>
    public IPortOpener For(PortAddress address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return address.Adapter switch
        {
            PortAdapter.Memory => memory.Opener(address),
            _ => throw new PlatformNotSupportedException(
                $"{address}: the adapter '{address.Adapter}' is not available at {settings.Baud} baud on this system."
            ),
        };
    }
}
