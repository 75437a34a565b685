namespace PupilBridge.ExamLog;

/// <summary>Brings a file's content from the operating system's memory onto the disk.</summary>
internal static class FileSync
{
    /// <summary>Syncs a file through a handle of our own; a file that does not exist has nothing to sync.</summary>
    /// <returns>
    /// False where the system refuses a second handle for writing (Windows, while the engine holds the file). Then the start
    /// after a power loss, which builds the exam log anew, is the only guard.
    /// </returns>
    public static bool TrySync(string path)
    {
        try
        {
            // Windows flushes only through a handle that may write; Linux through any.
            var access = OperatingSystem.IsWindows() ? FileAccess.ReadWrite : FileAccess.Read;
            using var handle = File.OpenHandle(path, FileMode.Open, access, FileShare.ReadWrite | FileShare.Delete);
            RandomAccess.FlushToDisk(handle);
            return true;
        }
        catch (FileNotFoundException)
        {
            return true;
        }
        catch (IOException) when (OperatingSystem.IsWindows())
        {
            return false;
        }
    }
}
