using System.Text;

namespace PupilBridge.ExamLog;

/// <summary>
/// A small file that says in what state the exam log was left. Only two things make files on disk worth opening: they were
/// closed in good order, or the process died while the operating system lived on. After a power loss a file may open and still
/// hold less than it held, so it is not asked.
/// </summary>
/// <remarks>
/// The file is written in place and synced: it is far smaller than a sector, and a folder entry that a power loss takes away
/// reads as a missing mark, which is not trusted either.
/// </remarks>
internal static class StateMark
{
    private const string Clean = "closed in good order";
    private const string Finished = "built to the end";
    private const string OpenPrefix = "open under ";

    /// <summary>Notes that the files are about to change under this run of the operating system.</summary>
    public static void WriteOpen(string path, string systemRun) => Write(path, OpenPrefix + systemRun);

    /// <summary>Notes that the files are complete and synced.</summary>
    public static void WriteClean(string path) => Write(path, Clean);

    /// <summary>Notes that a build beside the exam log in use is complete and synced.</summary>
    public static void WriteFinishedBuild(string path) => Write(path, Finished);

    /// <summary>Whether a build beside the exam log in use was finished.</summary>
    public static bool IsFinishedBuild(string path) => Read(path) == Finished;

    /// <summary>Whether the files can be trusted under the present run of the operating system.</summary>
    public static bool IsTrustworthy(string path, string systemRun)
    {
        var mark = Read(path);
        return mark is Clean or Finished || (systemRun != SystemRun.Unknown && mark == OpenPrefix + systemRun);
    }

    private static string? Read(string path) => File.Exists(path) ? File.ReadAllText(path).TrimEnd('\n', ' ') : null;

    private static void Write(string path, string mark)
    {
        using var stream = new FileStream(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read, bufferSize: 0);
        // Padded to one length, so that the file never holds the end of a longer mark.
        stream.Write(Encoding.ASCII.GetBytes(mark.PadRight(80) + "\n"));
        stream.Flush(flushToDisk: true);
    }
}
