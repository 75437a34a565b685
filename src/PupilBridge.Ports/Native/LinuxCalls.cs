using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace PupilBridge.Ports.Native;

/// <summary>The calls of the C library that serial terminals and pseudo-terminals need, as they are; -1 means errno.</summary>
/// <remarks>
/// <c>open</c> and <c>ioctl</c> take variable arguments in C. On Linux (x64, arm64) such arguments travel in the same
/// registers as fixed ones, so that fixed signatures are right here; they would not be on macOS.
/// </remarks>
[SupportedOSPlatform("linux")]
internal static unsafe partial class LinuxCalls
{
    private const string C = "libc";

    [LibraryImport(C, EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    internal static partial FileHandle Open(string path, int flags);

    [LibraryImport(C, EntryPoint = "close")]
    internal static partial int Close(int descriptor);

    [LibraryImport(C, EntryPoint = "read", SetLastError = true)]
    internal static partial nint Read(FileHandle handle, Span<byte> buffer, nuint count);

    [LibraryImport(C, EntryPoint = "write", SetLastError = true)]
    internal static partial nint Write(FileHandle handle, ReadOnlySpan<byte> buffer, nuint count);

    [LibraryImport(C, EntryPoint = "poll", SetLastError = true)]
    internal static partial int Poll(PollEntry* entries, nuint count, int timeoutMs);

    [LibraryImport(C, EntryPoint = "flock", SetLastError = true)]
    internal static partial int Flock(FileHandle handle, int operation);

    [LibraryImport(C, EntryPoint = "ioctl", SetLastError = true)]
    internal static partial int Ioctl(FileHandle handle, nuint request, int* argument);

    [LibraryImport(C, EntryPoint = "eventfd", SetLastError = true)]
    internal static partial FileHandle EventFd(uint start, int flags);

    [LibraryImport(C, EntryPoint = "inotify_init1", SetLastError = true)]
    internal static partial FileHandle InotifyInit(int flags);

    [LibraryImport(
        C,
        EntryPoint = "inotify_add_watch",
        SetLastError = true,
        StringMarshalling = StringMarshalling.Utf8
    )]
    internal static partial int InotifyAddWatch(FileHandle handle, string path, uint mask);

    [LibraryImport(C, EntryPoint = "tcgetattr", SetLastError = true)]
    internal static partial int GetAttributes(FileHandle handle, byte* termios);

    [LibraryImport(C, EntryPoint = "tcsetattr", SetLastError = true)]
    internal static partial int SetAttributes(FileHandle handle, int when, byte* termios);

    [LibraryImport(C, EntryPoint = "tcflush", SetLastError = true)]
    internal static partial int Flush(FileHandle handle, int queue);

    [LibraryImport(C, EntryPoint = "cfmakeraw")]
    internal static partial void MakeRaw(byte* termios);

    [LibraryImport(C, EntryPoint = "cfsetspeed", SetLastError = true)]
    internal static partial int SetSpeed(byte* termios, uint speed);

    [LibraryImport(C, EntryPoint = "cfgetospeed")]
    internal static partial uint GetOutputSpeed(byte* termios);

    [LibraryImport(C, EntryPoint = "posix_openpt", SetLastError = true)]
    internal static partial FileHandle OpenPseudoTerminal(int flags);

    [LibraryImport(C, EntryPoint = "grantpt", SetLastError = true)]
    internal static partial int Grant(FileHandle master);

    [LibraryImport(C, EntryPoint = "unlockpt", SetLastError = true)]
    internal static partial int Unlock(FileHandle master);

    [LibraryImport(C, EntryPoint = "ptsname_r")]
    internal static partial int SlaveName(FileHandle master, byte* name, nuint length);

    [LibraryImport(C, EntryPoint = "statx", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    internal static partial int Status(int folder, string path, int flags, uint mask, byte* status);

    [LibraryImport(C, EntryPoint = "access", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    internal static partial int Access(string path, int mode);

    [LibraryImport(C, EntryPoint = "rename", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    internal static partial int Rename(string from, string to);
}
