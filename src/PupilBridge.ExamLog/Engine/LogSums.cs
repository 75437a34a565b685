using System.Buffers.Binary;
using System.IO.Hashing;

namespace PupilBridge.ExamLog;

/// <summary>
/// A check sum for each page of the engine's log, kept in a file beside it. The engine believes its log as it believes its data file,
/// and a page of it that is lost can send it round in circles for ever. All pages are compared before the engine sees them.
/// </summary>
/// <remarks>
/// The log only grows until a checkpoint empties it. Sums are added after each transaction, so that a killed process leaves at most
/// the pages of its last one without. A log that is shorter than its sums is an earlier state and sound.
/// </remarks>
internal sealed class LogSums
{
    private readonly ExamLogFolder folder;
    private int noted;

    private LogSums(ExamLogFolder folder) => this.folder = folder;

    private string Path => System.IO.Path.Combine(folder.Folder, "exams-log.sums");

    /// <summary>Compares the log with its sums.</summary>
    /// <exception cref="InvalidDataException">A page is not as it was written.</exception>
    public static LogSums Open(ExamLogFolder folder)
    {
        var log = new LogSums(folder);
        var bytes = File.Exists(log.Path) ? File.ReadAllBytes(log.Path) : [];
        var found = log.Sums(0, bytes.Length / 8);
        for (var page = 0; page < found.Count; page++)
        {
            if (BinaryPrimitives.ReadUInt64LittleEndian(bytes.AsSpan(page * 8)) != found[page])
            {
                throw new InvalidDataException($"page {page} of the engine's log is not as it was written");
            }
        }

        log.noted = found.Count;
        log.Cut();
        log.CutTorn();
        return log;
    }

    /// <summary>
    /// Cuts off what a killed process had begun to write and that cannot be opened: it belongs to a transaction that was never reported,
    /// and the engine would stop at it.
    /// </summary>
    private void CutTorn()
    {
        var blockBytes = folder.Pages.BlockBytes;
        if (!File.Exists(folder.LogFile))
        {
            return;
        }

        using var file = new FileStream(
            folder.LogFile,
            FileMode.Open,
            FileAccess.ReadWrite,
            FileShare.ReadWrite,
            bufferSize: 0
        );
        var block = new byte[blockBytes];
        var bytes = new byte[EnginePages.PageBytes];
        for (long page = noted; page * blockBytes < file.Length; page++)
        {
            file.Position = page * blockBytes;
            if (
                file.ReadAtLeast(block, blockBytes, throwOnEndOfStream: false) < blockBytes
                || !Opens(page, block, bytes)
            )
            {
                file.SetLength(page * blockBytes);
                return;
            }
        }
    }

    private bool Opens(long page, byte[] block, byte[] bytes)
    {
        try
        {
            folder.Pages.Load(EngineFile.Log, page, block, bytes);
            return true;
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }

    /// <summary>Takes the sums of what the log has grown by, or begins anew where it was emptied.</summary>
    public void Note()
    {
        var length = new FileInfo(folder.LogFile) is { Exists: true } log ? log.Length : 0;
        if (length / folder.Pages.BlockBytes < noted)
        {
            noted = 0;
            Cut();
        }

        var added = Sums(noted, int.MaxValue);
        if (added.Count == 0)
        {
            return;
        }

        var bytes = new byte[added.Count * 8];
        for (var i = 0; i < added.Count; i++)
        {
            BinaryPrimitives.WriteUInt64LittleEndian(bytes.AsSpan(i * 8), added[i]);
        }

        using var file = File.OpenHandle(Path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read);
        RandomAccess.Write(file, bytes, noted * 8L);
        noted += added.Count;
    }

    /// <summary>Leaves no sum of a page that is not there.</summary>
    private void Cut()
    {
        if (File.Exists(Path))
        {
            using var file = new FileStream(Path, FileMode.Open, FileAccess.Write, FileShare.Read, bufferSize: 0);
            file.SetLength(noted * 8L);
        }
    }

    private List<ulong> Sums(int from, int count)
    {
        var sums = new List<ulong>();
        if (!File.Exists(folder.LogFile))
        {
            return sums;
        }

        using var log = File.OpenHandle(folder.LogFile, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var buffer = new byte[folder.Pages.BlockBytes];
        for (var page = from; sums.Count < count; page++)
        {
            if (RandomAccess.Read(log, buffer, (long)page * buffer.Length) != buffer.Length)
            {
                break;
            }

            sums.Add(XxHash3.HashToUInt64(buffer));
        }

        return sums;
    }
}
