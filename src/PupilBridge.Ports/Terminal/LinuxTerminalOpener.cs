using System.Runtime.Versioning;

namespace PupilBridge.Ports;

/// <summary>Opens a serial line by the Linux terminal calls.</summary>
[SupportedOSPlatform("linux")]
internal sealed class LinuxTerminalOpener(PortAddress address, PortSettings settings, OpenFaults faults) : IPortOpener
{
    public string Name => address.Text;

    // Opening a terminal can wait for the driver, so that it is kept off the caller's thread.
    public async ValueTask<IPort> OpenAsync() =>
        await Task.Run(() =>
            {
                var handle = TerminalOpening.OpenRaw(Name, address.Target, settings.Baud, faults);
                return new LinuxTerminalPort(Name, handle);
            })
            .ConfigureAwait(false);
}
