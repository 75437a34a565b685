using System.Security.Cryptography;
using PupilBridge.Keys;

namespace PupilBridge.ExamLog;

/// <summary>
/// The exam log's own key, wrapped under a master key, in a file beside the engine's files. If it is lost the exam log is made anew.
/// </summary>
internal static class ExamLogKey
{
    private const int KeyBytes = 32;

    /// <summary>Whether an exam log is encrypted: its key is there.</summary>
    public static bool IsThere(ExamLogFolder folder) => File.Exists(folder.KeyFile);

    /// <summary>Makes a key for an exam log that holds nothing yet.</summary>
    public static PageForm Make(ExamLogFolder folder, KeyRing keys)
    {
        var key = RandomNumberGenerator.GetBytes(KeyBytes);
        Write(folder.KeyFile, keys.Wrap(key));
        return new SealedPages(key);
    }

    /// <summary>Opens the key of an exam log.</summary>
    /// <exception cref="KeyException">The keys at hand do not open it.</exception>
    public static PageForm Open(ExamLogFolder folder, KeyRing? keys) =>
        new SealedPages(
            (keys ?? throw new KeyException("It is encrypted, and no master key is at hand.")).Unwrap(
                File.ReadAllBytes(folder.KeyFile)
            )
        );

    /// <summary>Wraps the key anew, if it is not wrapped under the current master key.</summary>
    /// <returns>Whether it was.</returns>
    public static bool WrapAnew(ExamLogFolder folder, KeyRing keys)
    {
        var wrapped = File.ReadAllBytes(folder.KeyFile);
        if (KeyRing.WrappedUnder(wrapped) == keys.Current)
        {
            return false;
        }

        Write(folder.KeyFile, keys.WrapAnew(wrapped));
        return true;
    }

    /// <summary>The master key under which the key is wrapped.</summary>
    public static MasterKeyId WrappedUnder(ExamLogFolder folder) =>
        KeyRing.WrappedUnder(File.ReadAllBytes(folder.KeyFile));

    /// <summary>Writes beside, syncs and renames, so that a process that dies leaves the one or the other.</summary>
    private static void Write(string path, byte[] wrapped)
    {
        var beside = path + ".new";
        using (var file = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.Read, bufferSize: 0))
        {
            file.Write(wrapped);
            file.Flush(flushToDisk: true);
        }

        File.Move(beside, path, overwrite: true);
    }
}
