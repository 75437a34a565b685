using System.IO.Ports;

namespace PupilBridge.Ports;

/// <summary>Lists the serial ports that are present. It opens none, since opening can reset a board.</summary>
/// <param name="folders">Where the system tells about its ports; null for the real ones.</param>
public sealed class PortDirectory(SystemFolders? folders = null)
{
    private readonly SystemFolders folders = folders ?? new SystemFolders();

    /// <summary>The ports that are present now, in the order of their stable names.</summary>
    public IReadOnlyList<FoundPort> List()
    {
        var devices = OperatingSystem.IsWindows() ? WindowsNames() : DeviceFiles();
        return [.. devices.OrderBy(port => port.StableName, StringComparer.Ordinal)];
    }

    /// <summary>
    /// The stable names alone of the ports that are present now, in order. It looks at no process and no adapter, and is
    /// cheap enough to be asked every few seconds for ever.
    /// </summary>
    public IReadOnlyList<string> ListNames()
    {
        if (OperatingSystem.IsWindows())
        {
            return [.. WindowsNames().Select(port => port.StableName).Order(StringComparer.Ordinal)];
        }

        var stable = StableNames();
        return
        [
            .. Devices(stable.Keys)
                .Select(device => stable.GetValueOrDefault(device, device))
                .Order(StringComparer.Ordinal),
        ];
    }

    private static IEnumerable<FoundPort> WindowsNames() =>
        SerialPort
            .GetPortNames()
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .Select(name => new FoundPort
            {
                StableName = name,
                Device = name,
                MayOpen = true,
            });

    private List<FoundPort> DeviceFiles()
    {
        var stable = StableNames();
        var holders = HolderSearch.All(folders);
        return [.. Devices(stable.Keys).Select(device => Describe(device, stable, holders))];
    }

    private IEnumerable<string> Devices(IEnumerable<string> linked)
    {
        var callOut = OperatingSystem.IsMacOS() ? Directory.EnumerateFiles(folders.Devices, "cu.*") : [];
        var known = KernelDevices.TerminalNames(folders).Select(name => Path.Combine(folders.Devices, name));
        return linked.Concat(known).Concat(callOut).Distinct(StringComparer.Ordinal).Where(File.Exists);
    }

    private FoundPort Describe(string device, Dictionary<string, string> stable, Dictionary<string, PortHolder> holders)
    {
        var mayOpen = folders.MayOpen(device);
        return new FoundPort
        {
            StableName = stable.GetValueOrDefault(device, device),
            Device = device,
            Usb = KernelDevices.UsbOf(folders, Path.GetFileName(device)),
            Holder = holders.GetValueOrDefault(device),
            MayOpen = mayOpen,
            WhyNot = mayOpen ? null : new PermissionAdvice(folders).For(device),
        };
    }

    /// <summary>Device file → the best of its links: by-id names the adapter, by-path only the socket it is in.</summary>
    private Dictionary<string, string> StableNames()
    {
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var kind in (string[])["by-id", "by-path"])
        {
            var folder = Path.Combine(folders.Devices, "serial", kind);
            if (!Directory.Exists(folder))
            {
                continue;
            }

            foreach (var link in Directory.EnumerateFileSystemEntries(folder).Order(StringComparer.Ordinal))
            {
                if (new FileInfo(link).ResolveLinkTarget(returnFinalTarget: true)?.FullName is { } device)
                {
                    names.TryAdd(device, link);
                }
            }
        }

        return names;
    }
}
