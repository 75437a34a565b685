using System.Buffers.Binary;
using System.IO.Hashing;
using System.Runtime.InteropServices;

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
    private const int HeadBytes = 32;
    private const int PieceBytes = 1 << 16;
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
            bytes.Length < HeadBytes
            || XxHash3.HashToUInt64(bytes.AsSpan(8)) != BinaryPrimitives.ReadUInt64LittleEndian(bytes)
        )
        {
            throw new InvalidDataException("the check sums of its pages are missing or damaged");
        }

        if (BinaryPrimitives.ReadUInt64LittleEndian(bytes.AsSpan(8)) != Magic)
        {
            throw new InvalidDataException("the check sums of its pages are of a kind that this version does not know");
        }

        var noted = (int)BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(16));
        var count = (int)BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(24));
        var changing = new HashSet<uint>(noted);
        for (var at = HeadBytes; at < HeadBytes + (noted * sizeof(uint)); at += sizeof(uint))
        {
            changing.Add(BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(at)));
        }

        // A long-lived clinic has more than a million pages, and a start waits for this.
        CollectionsMarshal.SetCount(sums, count);
        var all = CollectionsMarshal.AsSpan(sums);
        var stored = bytes.AsSpan(HeadBytes + (noted * sizeof(uint)));
        for (var page = 0; page < count; page++)
        {
            all[page] = BinaryPrimitives.ReadUInt64LittleEndian(stored[(page * sizeof(ulong))..]);
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
        var beside = Path + ".new";
        using (var file = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.Read, PieceBytes))
        {
            Span<byte> head = stackalloc byte[HeadBytes];
            BinaryPrimitives.WriteUInt64LittleEndian(head[8..], Magic);
            BinaryPrimitives.WriteInt64LittleEndian(head[16..], changing.Count);
            BinaryPrimitives.WriteInt64LittleEndian(head[24..], sums.Count);
            var hash = new XxHash3();
            hash.Append(head[8..]);
            file.Write(head);
            Span<byte> value = stackalloc byte[sizeof(ulong)];
            foreach (var page in changing)
            {
                BinaryPrimitives.WriteUInt32LittleEndian(value, page);
                hash.Append(value[..sizeof(uint)]);
                file.Write(value[..sizeof(uint)]);
            }

            foreach (var sum in sums)
            {
                BinaryPrimitives.WriteUInt64LittleEndian(value, sum);
                hash.Append(value);
                file.Write(value);
            }

            // The sum of all that follows stands before it.
            BinaryPrimitives.WriteUInt64LittleEndian(value, hash.GetCurrentHashAsUInt64());
            file.Position = 0;
            file.Write(value);
        }

        File.Move(beside, Path, overwrite: true);
    }
}
