namespace PupilBridge.Ports;

/// <summary>Turns an address into an opener of the right adapter.</summary>
/// <param name="settings">How serial lines and connections are opened.</param>
/// <param name="memory">The memory lines that addresses may name; null for none.</param>
/// <param name="folders">Where messages about faults look things up; null for the real places.</param>
public sealed class PortOpeners(PortSettings settings, MemoryLines? memory = null, SystemFolders? folders = null)
{
    private readonly MemoryLines memory = memory ?? new MemoryLines();
    private readonly OpenFaults faults = new(folders ?? new SystemFolders());

    /// <summary>The opener for an address.</summary>
    /// <param name="address">The address.</param>
    /// <exception cref="PlatformNotSupportedException">This system has no such adapter.</exception>
    public IPortOpener For(PortAddress address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return address.Adapter switch
        {
            PortAdapter.Memory => memory.Opener(address),
            PortAdapter.Terminal when OperatingSystem.IsLinux() => new LinuxTerminalOpener(address, settings, faults),
            PortAdapter.Serial => new SerialPortOpener(address, settings, faults),
            PortAdapter.Tcp => new TcpPortOpener(address, settings),
            _ => throw new PlatformNotSupportedException(
                $"{address}: this system has no adapter '{address.Adapter}'. Leave the prefix out to take the usual one."
            ),
        };
    }
}
