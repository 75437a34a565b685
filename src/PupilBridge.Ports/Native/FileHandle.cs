using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>
/// A file descriptor that is closed once, and only when no call uses it any more: a number that was closed may at once
/// belong to another file.
/// </summary>
[SupportedOSPlatform("linux")]
internal sealed class FileHandle : SafeHandle
{
    public FileHandle()
        : base(-1, ownsHandle: true) { }

    /// <summary>Whether there is none. A descriptor is 32 bits wide: a failed call's -1 need not fill the whole handle.</summary>
    public override bool IsInvalid => (int)handle < 0;

    /// <inheritdoc/>
    protected override bool ReleaseHandle() => LinuxCalls.Close((int)handle) == 0;
}
