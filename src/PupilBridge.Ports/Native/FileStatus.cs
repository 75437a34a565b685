using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>Who owns a file and what its permissions are.</summary>
/// <param name="Mode">The type and permission bits.</param>
/// <param name="User">The owner's number.</param>
/// <param name="Group">The group's number.</param>
/// <param name="DeviceMajor">The major number of a device; 0 for another file.</param>
internal readonly record struct FileStatus(int Mode, uint User, uint Group, uint DeviceMajor)
{
    private const int CurrentFolder = -100; // AT_FDCWD
    private const uint BasicStatus = 0x7FF; // STATX_BASIC_STATS
    private const int StatusBytes = 256;
    private const int UserAt = 20;
    private const int GroupAt = 24;
    private const int ModeAt = 28;
    private const int DeviceMajorAt = 128;

    /// <summary>Whether the group may both read and write.</summary>
    internal bool GroupMayOpen => (Mode & 0x30) == 0x30;

    /// <summary>Whether this is the host's side of a pseudo-terminal (Linux, admin-guide/devices.txt: majors 136 to 143).</summary>
    internal bool IsPseudoTerminal => DeviceMajor is >= 136 and <= 143;

    /// <summary>Reads it; null if there is no such file or it cannot be seen.</summary>
    [SupportedOSPlatform("linux")]
    internal static unsafe FileStatus? Of(string path)
    {
        var status = stackalloc byte[StatusBytes];
        return LinuxCalls.Status(CurrentFolder, path, 0, BasicStatus, status) != 0
            ? null
            : new FileStatus(
                *(ushort*)(status + ModeAt),
                *(uint*)(status + UserAt),
                *(uint*)(status + GroupAt),
                *(uint*)(status + DeviceMajorAt)
            );
    }
}
