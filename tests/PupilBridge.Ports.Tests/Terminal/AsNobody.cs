using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace PupilBridge.Ports.Tests;

/// <summary>
/// Runs something without root's rights. In Linux, rights belong to the thread: the raw system call changes the calling
/// thread alone, and that thread ends right after.
/// </summary>
[SupportedOSPlatform("linux")]
internal static partial class AsNobody
{
    private const nint Nobody = 65_534;
    private const nint Unchanged = -1;

    internal static T Run<T>(Func<T> action)
    {
        T result = default!;
        Exception? fault = null;
        var thread = new Thread(() =>
        {
            try
            {
                if (Environment.IsPrivilegedProcess)
                {
                    // setresuid: number 117 on x64, 147 on arm64 (Linux, asm/unistd.h).
                    var number = RuntimeInformation.ProcessArchitecture == Architecture.Arm64 ? 147 : 117;
                    Assert.Equal(0, SystemCall(number, Unchanged, Nobody, Unchanged));
                }

                result = action();
            }
            catch (Exception error)
            {
                fault = error;
            }
        });
        thread.Start();
        thread.Join();
        return fault is null ? result : throw new InvalidOperationException("Failed as nobody.", fault);
    }

    [LibraryImport("libc", EntryPoint = "syscall", SetLastError = true)]
    private static partial nint SystemCall(nint number, nint real, nint effective, nint saved);
}
