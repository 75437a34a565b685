using System.Buffers.Binary;
using System.IO.Hashing;

namespace PupilBridge.ExamLog;

/// <summary>
/// A check sum for each page of the data file, kept in a file beside it, since the engine has none: it serves a flipped bit as data,
/// and some flipped bits send it round in circles for ever. Each page is compared before the engine is given it.
/// </summary>
/// <remarks>
/// The engine changes its data file in a checkpoint and nowhere else, and then exactly the pages that its log holds. Before a
/// checkpoint those pages are noted as changing, after it their new sums are written; a process that dies in between leaves the note,
/// and the pages noted are not compared but summed anew. If the checkpoint was cut off, they are in the log as well.
/// </remarks>
internal sealed class PageSums
{
    private const ulong Magic = 0x3153_4D55_5342_5550; // "PUBSUMS1"
    private readonly ExamLogFolder folder;
    private readonly Lock gate = new();
    private readonly List<ulong> sums = [];
    private HashSet<uint> exempt = [];

    private PageSums(ExamLogFolder folder) => this.folder = folder;

    private string Path => System.IO.Path.Combine(folder.Folder, "exams.sums");

    /// <summary>Reads the sums, and compares how many pages there are. Where there is no data file there are no sums.</summary>
    /// <exception cref="InvalidDataException">The sums are missing or damaged, or do not fit the file's length.</exception>
    public static PageSums Open(ExamLogFolder folder)
    {
        var pages = new PageSums(folder);
        var inLog = EnginePages.InLog(folder);
        if (File.Exists(folder.DataFile))
        {
            var noted = pages.Load();
            pages.exempt = [.. inLog, .. noted];
            pages.CompareLength();
            // The checkpoint may have been complete and only the new sums missing: then no later one would bring them.
            pages.Take(noted);
        }

        return pages;
    }

    /// <summary>Writes the sums of a data file that the engine has just made.</summary>
    public void Begin() => Save([]);

    /// <summary>Compares a page, as it stands on disk, with its sum.</summary>
    /// <exception cref="InvalidDataException">It is not as it was written.</exception>
    public void Check(long page, ReadOnlySpan<byte> bytes)
    {
        var found = XxHash3.HashToUInt64(bytes);
        lock (gate)
        {
            if ((page >= sums.Count || sums[(int)page] != found) && !exempt.Contains((uint)page))
            {
                throw new InvalidDataException($"page {page} is not as it was written");
            }
        }
    }

    /// <summary>Takes the sum of a page that is being written.</summary>
    public void Wrote(long page, ReadOnlySpan<byte> bytes)
    {
        var sum = XxHash3.HashToUInt64(bytes);
        lock (gate)
        {
            Set(page, sum);
            exempt.Remove((uint)page);
        }
    }

    /// <summary>Runs a checkpoint between the note and the new sums.</summary>
    public void Around(Action checkpoint)
    {
        Save(EnginePages.InLog(folder));
        checkpoint();
        Save([]);
    }

    /// <summary>Makes the sums durable.</summary>
    public bool TrySync() => FileSync.TrySync(Path);

    private void Take(HashSet<uint> changed) => EnginePages.Sum(folder, changed, Set);

    private void Set(long page, ulong sum)
    {
        while (sums.Count <= page)
        {
            sums.Add(0);
        }

        sums[(int)page] = sum;
    }

    private void CompareLength()
    {
        var count = new FileInfo(folder.DataFile).Length / folder.Pages.BlockBytes;
        RequireExempt(sums.Count, count, "was never written");
        RequireExempt(count, sums.Count, "is missing");
    }

    private void RequireExempt(long from, long to, string what)
    {
        for (var page = from; page < to; page++)
        {
            if (!exempt.Contains((uint)page))
            {
                throw new InvalidDataException($"page {page} {what}");
            }
        }
    }

    /// <summary>Reads the sums.</summary>
    /// <returns>The pages noted as changing.</returns>
    private HashSet<uint> Load()
    {
        var bytes = File.Exists(Path) ? File.ReadAllBytes(Path) : [];
        if (
            bytes.Length < 32
            || XxHash3.HashToUInt64(bytes.AsSpan(8)) != BinaryPrimitives.ReadUInt64LittleEndian(bytes)
        )
        {
            throw new InvalidDataException("the check sums of its pages are missing or damaged");
        }

        var reader = new BinaryReader(new MemoryStream(bytes));
        reader.ReadUInt64();
        if (reader.ReadUInt64() != Magic)
        {
            throw new InvalidDataException("the check sums of its pages are of a kind that this version does not know");
        }

        var noted = reader.ReadInt64();
        var count = reader.ReadInt64();
        var changing = new HashSet<uint>();
        for (var i = 0L; i < noted; i++)
        {
            changing.Add(reader.ReadUInt32());
        }

        for (var i = 0L; i < count; i++)
        {
            sums.Add(reader.ReadUInt64());
        }

        return changing;
    }

    /// <summary>Writes beside and renames, so that a process that dies leaves the one or the other.</summary>
    private void Save(HashSet<uint> changing)
    {
        lock (gate)
        {
            Write(changing);
        }
    }

    private void Write(HashSet<uint> changing)
    {
        var stream = new MemoryStream(32 + (changing.Count * 4) + (sums.Count * 8));
        var writer = new BinaryWriter(stream);
        writer.Write(0UL);
        writer.Write(Magic);
        writer.Write((long)changing.Count);
        writer.Write((long)sums.Count);
        foreach (var page in changing)
        {
            writer.Write(page);
        }

        foreach (var sum in sums)
        {
            writer.Write(sum);
        }

        var bytes = stream.GetBuffer().AsSpan(0, (int)stream.Length);
        BinaryPrimitives.WriteUInt64LittleEndian(bytes, XxHash3.HashToUInt64(bytes[8..]));
        var beside = Path + ".new";
        using (var file = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.Read, bufferSize: 0))
        {
            file.Write(bytes);
        }

        File.Move(beside, Path, overwrite: true);
    }
}
