namespace PupilBridge.Ports.Tests;

/// <summary>A tree of made-up devices, laid out as Linux lays out /dev, /sys and /proc.</summary>
internal sealed class MadeUpSystem : IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("pupilbridge-devices-").FullName;
    private readonly HashSet<string> forbidden = [];

    internal MadeUpSystem()
    {
        Folders = new SystemFolders
        {
            Devices = Under("dev"),
            Kernel = Under("sys"),
            Processes = Under("proc"),
            Groups = Path.Combine(Under("etc"), "group"),
            Account = "kd",
            MayOpen = path => !forbidden.Contains(path),
        };
        File.WriteAllText(Folders.Groups, "dialout:x:20:\n");
    }

    internal SystemFolders Folders { get; }

    public void Dispose() => Directory.Delete(root, recursive: true);

    internal string Device(string name) => Path.Combine(Folders.Devices, name);

    /// <summary>A USB adapter with one line.</summary>
    internal void AddUsb(string name, string socket, string vendor, string product, string? serial)
    {
        var usb = Directory.CreateDirectory(Path.Combine(Folders.Kernel, "devices/pci0/usb1", socket)).FullName;
        File.WriteAllText(Path.Combine(usb, "idVendor"), vendor + "\n");
        File.WriteAllText(Path.Combine(usb, "idProduct"), product + "\n");
        File.WriteAllText(Path.Combine(usb, "manufacturer"), "Quay Cables\n");
        if (serial is not null)
        {
            File.WriteAllText(Path.Combine(usb, "serial"), serial + "\n");
        }

        AddTerminal(name, $"devices/pci0/usb1/{socket}/{socket}:1.0/{name}/tty/{name}", type: null);
    }

    /// <summary>A built-in line; type 0 is one that has no chip.</summary>
    internal void AddBuiltIn(string name, int type) =>
        AddTerminal(name, $"devices/platform/serial/tty/{name}", type.ToString("D", null));

    /// <summary>A console or pseudo-terminal: no hardware.</summary>
    internal void AddVirtual(string name)
    {
        Directory.CreateDirectory(Path.Combine(Folders.Kernel, "devices/virtual/tty", name));
        LinkClass(name, "devices/virtual/tty/" + name);
        File.WriteAllText(Device(name), "");
    }

    internal string AddLink(string kind, string link, string name)
    {
        var path = Path.Combine(Under("dev/serial/" + kind), link);
        File.CreateSymbolicLink(path, "../../" + name);
        return path;
    }

    internal void AddHolder(int process, string program, string name)
    {
        var folder = Under($"proc/{process}/fd");
        File.CreateSymbolicLink(Path.Combine(folder, "7"), Device(name));
        File.WriteAllText(Under($"proc/{process}") + "/comm", program + "\n");
    }

    internal void Forbid(string name) => forbidden.Add(Device(name));

    private void AddTerminal(string name, string place, string? type)
    {
        var folder = Directory.CreateDirectory(Path.Combine(Folders.Kernel, place)).FullName;
        File.CreateSymbolicLink(Path.Combine(folder, "device"), "../..");
        if (type is not null)
        {
            File.WriteAllText(Path.Combine(folder, "type"), type + "\n");
        }

        LinkClass(name, place);
        File.WriteAllText(Device(name), "");
    }

    private void LinkClass(string name, string place) =>
        File.CreateSymbolicLink(Path.Combine(Under("sys/class/tty"), name), "../../" + place);

    private string Under(string folder) => Directory.CreateDirectory(Path.Combine(root, folder)).FullName;
}
