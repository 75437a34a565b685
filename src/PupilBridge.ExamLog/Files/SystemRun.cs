namespace PupilBridge.ExamLog;

/// <summary>Tells one run of the operating system from the next.</summary>
internal static class SystemRun
{
    /// <summary>The name given when the system does not tell its runs apart; it never equals itself as a guard.</summary>
    public const string Unknown = "unknown";

    private const string LinuxBootId = "/proc/sys/kernel/random/boot_id";

    /// <summary>The name of the present run: on Linux the kernel's random boot id (proc(5)), elsewhere unknown.</summary>
    public static string Current()
    {
        try
        {
            return File.Exists(LinuxBootId) ? File.ReadAllText(LinuxBootId).Trim() : Unknown;
        }
        catch (IOException)
        {
            return Unknown;
        }
    }
}
