using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>Turns the system's error number into a fault and a message that a person can act on.</summary>
internal sealed class OpenFaults(SystemFolders folders)
{
    /// <summary>The fault of an error number of <c>open</c> and what follows it.</summary>
    internal static PortOpenFault Of(int errno) =>
        errno switch
        {
            LinuxNumbers.NotFound or LinuxNumbers.NotADirectory or LinuxNumbers.TooManyLinks => PortOpenFault.Missing,
            LinuxNumbers.AccessDenied or LinuxNumbers.NotPermitted => PortOpenFault.Forbidden,
            LinuxNumbers.DeviceBusy or LinuxNumbers.TryAgain => PortOpenFault.Busy,
            LinuxNumbers.NotATerminal => PortOpenFault.NotATerminal,
            LinuxNumbers.IsADirectory => PortOpenFault.IsDirectory,
            LinuxNumbers.NoDeviceOrAddress or LinuxNumbers.NoDevice or LinuxNumbers.InputOutput =>
                PortOpenFault.NoDevice,
            _ => PortOpenFault.Other,
        };

    /// <summary>The whole exception.</summary>
    /// <param name="port">The name by which the port was asked for.</param>
    /// <param name="path">The device or a link to it.</param>
    /// <param name="errno">The system's error number.</param>
    /// <param name="system">The system's own words.</param>
    /// <param name="inner">What was thrown, if anything.</param>
    internal PortOpenException From(string port, string path, int errno, string system, Exception? inner = null)
    {
        var fault = Of(errno);
        var device = DeviceOf(path);
        var text = fault switch
        {
            PortOpenFault.Missing => $"There is no port {port}. {Present()}",
            PortOpenFault.Forbidden => new PermissionAdvice(folders).For(device),
            PortOpenFault.Busy => $"The port {port} is in use{By(device)}. Close that program, or choose another port.",
            PortOpenFault.NotATerminal => $"{port} exists but is not a serial port. {Present()}",
            PortOpenFault.IsDirectory => $"{port} is a folder, not a serial port. {Present()}",
            PortOpenFault.NoDevice =>
                $"No device answers behind the port {port} ({system}). Pull the instrument's plug, put it back, and try again.",
            _ => $"The port {port} could not be opened: {system}. {Present()}",
        };
        return new PortOpenException(port, fault, text, inner);
    }

    /// <summary>The exception for a speed that the device does not take.</summary>
    internal static PortOpenException BadSpeed(string port, int baud) =>
        new(
            port,
            PortOpenFault.Other,
            $"The port {port} does not run at {baud} baud. Set the speed of the instrument; usual is {PortSettings.DefaultBaud}."
        );

    private string Present()
    {
        var names = new PortDirectory(folders).List().Select(port => port.StableName).ToList();
        return names.Count == 0
            ? "This computer shows no serial port: check that the cable is in and the instrument is switched on."
            : $"Ports present: {string.Join(", ", names)}.";
    }

    private string By(string device) =>
        HolderSearch.All(folders).TryGetValue(device, out var holder)
            ? $" by '{holder.ProcessName}' (process {holder.ProcessId})"
            : " by another program";

    private static string DeviceOf(string path)
    {
        try
        {
            return new FileInfo(path).ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? path;
        }
        catch (IOException)
        {
            return path;
        }
    }
}
