using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>Where the system tells about its ports; tests point it at a made-up tree.</summary>
public sealed record SystemFolders
{
    /// <summary>The device files.</summary>
    /// <value>The default value is <c>/dev</c>.</value>
    public string Devices { get; init; } = "/dev";

    /// <summary>What the kernel knows about devices.</summary>
    /// <value>The default value is <c>/sys</c>.</value>
    public string Kernel { get; init; } = "/sys";

    /// <summary>The running processes.</summary>
    /// <value>The default value is <c>/proc</c>.</value>
    public string Processes { get; init; } = "/proc";

    /// <summary>The file of groups.</summary>
    /// <value>The default value is <c>/etc/group</c>.</value>
    public string Groups { get; init; } = "/etc/group";

    /// <summary>The name of the account that this program runs under.</summary>
    /// <value>The default value is the account's own name.</value>
    public string Account { get; init; } = Environment.UserName;

    /// <summary>Whether the account may open a device for reading and writing.</summary>
    /// <value>The default value asks the system.</value>
    public Func<string, bool> MayOpen { get; init; } = static path => !OperatingSystem.IsLinux() || SystemMayOpen(path);

    [SupportedOSPlatform("linux")]
    private static bool SystemMayOpen(string path) => LinuxCalls.Access(path, 2 | 4) == 0;
}
