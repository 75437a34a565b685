using System.Runtime.InteropServices;

namespace PupilBridge.Data;

/// <summary>
/// Whatever this program writes is about patients: no other account of the machine may read it, however the account that runs it is set up.
/// </summary>
internal static partial class PrivateByDefault
{
    /// <summary>Group and others get nothing.</summary>
    private const int OwnerOnly = 0b000_111_111;

    /// <summary>From now on every file and folder that this process makes is its owner's alone. (On Windows the folder's own rights hold.)</summary>
    public static void Begin()
    {
        if (!OperatingSystem.IsWindows())
        {
            _ = SetMask(OwnerOnly);
        }
    }

    /// <summary>POSIX <c>umask</c>; it cannot fail.</summary>
    [LibraryImport("libc", EntryPoint = "umask")]
    private static partial int SetMask(int mask);
}
