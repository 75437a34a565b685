using System.Buffers.Binary;

namespace PupilBridge.ExamLog;

/// <summary>
/// Looks at the engine's log before the engine does. The engine believes every page number it finds there; a damaged one would
/// make the next checkpoint write terabytes away from the file's end.
/// </summary>
internal static class LogFileGuard
{
    private const int PageBytes = 8192;

    /// <summary>Refuses a log that cannot belong to the data file.</summary>
    /// <exception cref="InvalidDataException">It cannot.</exception>
    public static void Check(ExamLogFolder folder)
    {
        var log = new FileInfo(folder.LogFile);
        if (!log.Exists || log.Length < PageBytes)
        {
            return;
        }

        var data = new FileInfo(folder.DataFile);
        if (!data.Exists || data.Length < PageBytes)
        {
            throw new InvalidDataException("there is a log of the engine but no data file to it");
        }

        // A page that is not in the data file yet was made in the log, so no number lies beyond both together.
        var limit = (data.Length / PageBytes) + (log.Length / PageBytes);
        using var handle = File.OpenHandle(log.FullName, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        Span<byte> head = stackalloc byte[4];
        for (long at = 0; at + PageBytes <= log.Length; at += PageBytes)
        {
            var page =
                RandomAccess.Read(handle, head, at) == 4
                    ? BinaryPrimitives.ReadUInt32LittleEndian(head)
                    : uint.MaxValue;
            if (page > limit)
            {
                throw new InvalidDataException($"the engine's log names page {page}, which cannot exist");
            }
        }
    }
}
