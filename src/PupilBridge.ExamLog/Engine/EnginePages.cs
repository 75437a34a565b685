using System.Buffers.Binary;
using System.IO.Hashing;

namespace PupilBridge.ExamLog;

/// <summary>Looks at the engine's pages from outside: 8192 bytes each, a page's own number in its first four bytes.</summary>
internal static class EnginePages
{
    /// <summary>The size of a page.</summary>
    public const int PageBytes = 8192;

    /// <summary>The numbers of the pages that the engine's log holds: those that its next checkpoint writes.</summary>
    /// <exception cref="InvalidDataException">The log cannot belong to the data file.</exception>
    public static HashSet<uint> InLog(ExamLogFolder folder)
    {
        var pages = new HashSet<uint>();
        var blockBytes = folder.Pages.BlockBytes;
        var log = new FileInfo(folder.LogFile);
        if (!log.Exists || log.Length < blockBytes)
        {
            return pages;
        }

        var data = new FileInfo(folder.DataFile);
        if (!data.Exists || data.Length < blockBytes)
        {
            throw new InvalidDataException("there is a log of the engine but no data file to it");
        }

        // A page that is not in the data file yet was made in the log, so no number lies beyond both together. The engine would
        // believe any number, and its next checkpoint would write terabytes away from the file's end.
        var limit = (data.Length / blockBytes) + (log.Length / blockBytes);
        using var handle = File.OpenHandle(log.FullName, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var block = new byte[blockBytes];
        var bytes = new byte[PageBytes];
        for (long index = 0; (index + 1) * blockBytes <= log.Length; index++)
        {
            RandomAccess.Read(handle, block, index * blockBytes);
            folder.Pages.Load(EngineFile.Log, index, block, bytes);
            var page = BinaryPrimitives.ReadUInt32LittleEndian(bytes);
            if (page > limit)
            {
                throw new InvalidDataException($"the engine's log names page {page}, which cannot exist");
            }

            pages.Add(page);
        }

        return pages;
    }

    /// <summary>Sums pages of the data file.</summary>
    /// <param name="folder">The exam log.</param>
    /// <param name="pages">The pages wanted; what lies beyond the file's end is passed over.</param>
    /// <param name="take">Takes each page's number and the XxHash3 of its bytes as they stand on disk.</param>
    public static void Sum(ExamLogFolder folder, IReadOnlyCollection<uint> pages, Action<long, ulong> take)
    {
        var blockBytes = folder.Pages.BlockBytes;
        using var handle = File.OpenHandle(folder.DataFile, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var count = RandomAccess.GetLength(handle) / blockBytes;
        var buffer = new byte[blockBytes];
        foreach (var page in pages.Order().TakeWhile(page => page < count))
        {
            if (RandomAccess.Read(handle, buffer, (long)page * blockBytes) != blockBytes)
            {
                throw new IOException($"page {page} of {folder.DataFile} could not be read whole");
            }

            take(page, XxHash3.HashToUInt64(buffer));
        }
    }
}
