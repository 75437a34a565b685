using System.Globalization;
using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>Says to a person why an account may not open a device, and the exact command that changes it.</summary>
internal sealed class PermissionAdvice(SystemFolders folders)
{
    /// <summary>One or two sentences.</summary>
    internal string For(string device)
    {
        if (OperatingSystem.IsLinux() && FileStatus.Of(device) is { } status)
        {
            return For(device, status);
        }

        return $"The account '{folders.Account}' may not open {device}. Ask whoever looks after this computer.";
    }

    [SupportedOSPlatform("linux")]
    internal string For(string device, FileStatus status)
    {
        var (group, members) = GroupOf(status.Group);
        if (!status.GroupMayOpen || status.Group == 0)
        {
            return $"The account '{folders.Account}' may not open {device}: only its owner may. "
                + "Install the udev rules that come with the program (70-pupilbridge.rules), then pull the plug and put it back.";
        }

        if (members.Contains(folders.Account, StringComparer.Ordinal))
        {
            return $"The account '{folders.Account}' is in the group '{group}', which may open {device}, but this session "
                + "began before that. Sign out and in again; a service needs a restart.";
        }

        return $"The account '{folders.Account}' may not open {device}: it belongs to the group '{group}'. "
            + $"Run 'sudo usermod -aG {group} {folders.Account}', then sign out and in again; a service needs a restart.";
    }

    private (string Name, string[] Members) GroupOf(uint number)
    {
        var id = number.ToString(CultureInfo.InvariantCulture);
        try
        {
            foreach (var line in File.ReadLines(folders.Groups))
            {
                if (line.Split(':') is [var name, _, var found, var members] && found == id)
                {
                    return (name, members.Split(',', StringSplitOptions.RemoveEmptyEntries));
                }
            }
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // Then the number has to do.
        }

        return (id, []);
    }
}
