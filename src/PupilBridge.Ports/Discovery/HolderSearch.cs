using System.Globalization;

namespace PupilBridge.Ports;

/// <summary>
/// Finds who has a device open, by the links in the processes' folders of descriptors. An account sees its own processes
/// only, so that "nobody" may mean "somebody else's".
/// </summary>
internal static class HolderSearch
{
    /// <summary>The first process, by number, for each device that some process has open.</summary>
    internal static Dictionary<string, PortHolder> All(SystemFolders folders)
    {
        var holders = new Dictionary<string, PortHolder>(StringComparer.Ordinal);
        foreach (var (id, folder) in Processes(folders.Processes))
        {
            foreach (var target in Targets(Path.Combine(folder, "fd"), folders.Devices))
            {
                holders.TryAdd(target, new PortHolder(id, Name(folder)));
            }
        }

        return holders;
    }

    private static IEnumerable<(int Id, string Folder)> Processes(string root) =>
        !Directory.Exists(root)
            ? []
            : Directory
                .EnumerateDirectories(root)
                .Select(folder =>
                    (
                        Id: int.TryParse(Path.GetFileName(folder), CultureInfo.InvariantCulture, out var id) ? id : 0,
                        folder
                    )
                )
                .Where(process => process.Id > 0)
                .OrderBy(process => process.Id);

    private static List<string> Targets(string descriptors, string devices)
    {
        var targets = new List<string>();
        try
        {
            foreach (var link in Directory.EnumerateFileSystemEntries(descriptors))
            {
                if (new FileInfo(link).LinkTarget is { } target && target.StartsWith(devices, StringComparison.Ordinal))
                {
                    targets.Add(target);
                }
            }
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // The process ended meanwhile, or belongs to another account.
        }

        return targets;
    }

    private static string Name(string folder)
    {
        try
        {
            return File.ReadAllText(Path.Combine(folder, "comm")).Trim();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return "unknown";
        }
    }
}
