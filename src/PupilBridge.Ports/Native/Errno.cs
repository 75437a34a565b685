using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>The error number that the last call left, and its text.</summary>
[SupportedOSPlatform("linux")]
internal static class Errno
{
    internal static int Last => Marshal.GetLastPInvokeError();

    /// <summary>The system's own words for the last error, for example <c>Input/output error</c>.</summary>
    internal static string LastText => Marshal.GetPInvokeErrorMessage(Last);

    /// <summary>Passes a handle through, or throws what the system said.</summary>
    internal static FileHandle Checked(FileHandle handle, string call)
    {
        if (!handle.IsInvalid)
        {
            return handle;
        }

        var error = new IOException($"The system refused '{call}': {LastText}.", Last);
        handle.Dispose();
        throw error;
    }

    /// <summary>Passes a result through, or throws what the system said.</summary>
    internal static void Checked(int result, string call)
    {
        if (result < 0)
        {
            throw new IOException($"The system refused '{call}': {LastText}.", Last);
        }
    }
}
