namespace PupilBridge.Ports;

/// <summary>Reads about terminals in the kernel's tree (sysfs).</summary>
internal static class KernelDevices
{
    // A USB interface, the hub chain and the controller lie between; ten levels reach past all of them.
    private const int LevelsToClimb = 10;

    /// <summary>The names of terminals that have real hardware behind them, for example <c>ttyUSB0</c>.</summary>
    internal static IEnumerable<string> TerminalNames(SystemFolders folders)
    {
        var terminals = Path.Combine(folders.Kernel, "class", "tty");
        return Directory.Exists(terminals)
            ? Directory
                .EnumerateFileSystemEntries(terminals)
                .Where(HasHardware)
                .Select(path => Path.GetFileName(path))
                .Order(StringComparer.Ordinal)
            : [];
    }

    /// <summary>
    /// The USB adapter of a terminal. The terminal's entry is itself a link into the tree of devices: it is resolved
    /// first and climbed from there, since <c>…/device</c> put after an unresolved link names a place that does not exist.
    /// </summary>
    internal static UsbAdapter? UsbOf(SystemFolders folders, string terminal)
    {
        var entry = new DirectoryInfo(Path.Combine(folders.Kernel, "class", "tty", terminal));
        var folder = entry.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? entry.FullName;
        for (var level = 0; level < LevelsToClimb && folder is { Length: > 1 }; level++)
        {
            if (Text(folder, "idVendor") is { } vendor && Text(folder, "idProduct") is { } product)
            {
                return new UsbAdapter(
                    vendor,
                    product,
                    Text(folder, "serial"),
                    Text(folder, "manufacturer"),
                    Text(folder, "product")
                );
            }

            folder = Path.GetDirectoryName(folder);
        }

        return null;
    }

    // Boards announce more built-in lines than they have: a type of 0 means that no chip answered.
    private static bool HasHardware(string entry) =>
        Directory.Exists(Path.Combine(entry, "device")) && Text(entry, "type") != "0";

    private static string? Text(string folder, string name)
    {
        try
        {
            var text = File.ReadAllText(Path.Combine(folder, name)).Trim();
            return text.Length == 0 ? null : text;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
