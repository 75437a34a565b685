using System.Buffers.Binary;
using System.IO.Hashing;

namespace PupilBridge.ExamLog;

/// <summary>
/// A check sum for each page of the data file, kept in a file beside it, since the engine has none: it serves a flipped bit as data,
/// and some flipped bits send it round in circles for ever. All pages are compared before the engine sees the file.
/// </summary>
/// <remarks>
/// The engine changes its data file in a checkpoint and nowhere else, and then exactly the pages that its log holds. Before a
/// checkpoint those pages are noted as changing, after it their sums are taken anew; a process that dies in between leaves the note,
/// and the pages noted are not compared but summed anew. If the checkpoint was cut off, they are in the log as well.
/// </remarks>
internal sealed class PageSums
{
    private const ulong Magic = 0x3153_4D55_5342_5550; // "PUBSUMS1"
    private readonly ExamLogFolder folder;
    private readonly List<ulong> sums = [];

    private PageSums(ExamLogFolder folder) => this.folder = folder;

    private string Path => System.IO.Path.Combine(folder.Folder, "exams.sums");

    /// <summary>Reads the sums and compares the data file with them. Where there is no data file there are no sums.</summary>
    /// <exception cref="InvalidDataException">A page is not as it was written, or the sums are missing or damaged.</exception>
    public static PageSums Open(ExamLogFolder folder)
    {
        var pages = new PageSums(folder);
        var inLog = EnginePages.InLog(folder);
        if (File.Exists(folder.DataFile))
        {
            var noted = pages.Load();
            pages.Compare([.. inLog, .. noted]);
            // The checkpoint may have been complete and only the new sums missing: then no later one would bring them.
            pages.Take(noted);
        }

        return pages;
    }

    /// <summary>Takes the sums of a data file that the engine has just made.</summary>
    public void Begin() => Refresh(null);

    /// <summary>Runs a checkpoint between the note and the new sums.</summary>
    public void Around(Action checkpoint)
    {
        var changing = EnginePages.InLog(folder);
        Save(changing);
        checkpoint();
        Refresh(changing);
    }

    /// <summary>Makes the sums durable.</summary>
    public bool TrySync() => FileSync.TrySync(Path);

    private void Refresh(HashSet<uint>? changed)
    {
        Take(changed);
        Save([]);
    }

    private void Take(HashSet<uint>? changed) =>
        EnginePages.Sum(
            folder.DataFile,
            changed,
            (page, sum) =>
            {
                while (sums.Count <= page)
                {
                    sums.Add(0);
                }

                sums[(int)page] = sum;
            }
        );

    private void Compare(HashSet<uint> exempt)
    {
        var count = EnginePages.Sum(
            folder.DataFile,
            null,
            (page, sum) =>
            {
                if ((page >= sums.Count || sums[(int)page] != sum) && !exempt.Contains((uint)page))
                {
                    throw new InvalidDataException($"page {page} is not as it was written");
                }
            }
        );
        for (var page = count; page < sums.Count; page++)
        {
            if (!exempt.Contains((uint)page))
            {
                throw new InvalidDataException($"page {page} is missing");
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
