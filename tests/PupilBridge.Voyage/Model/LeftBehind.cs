using System.IO.Compression;
using System.Text;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// Everything that can be read at the end by somebody who has all files and the master keys: the files of the simulated disk as they are,
/// encrypted records and sealed pieces opened, notes of live exams unpacked, and the files of the exam log.
/// </summary>
internal sealed class LeftBehind
{
    private const int NoteHead = 24;
    private const int NoteSum = 8;
    private readonly List<(string Where, byte[] Bytes)> all = [];

    public LeftBehind(VoyageWorld world, string examLogFolder)
    {
        foreach (var path in world.Disk.Paths)
        {
            var bytes = world.Disk.Content(path);
            all.Add((path, bytes));
            if (Unpacked(bytes) is { } note)
                all.Add((path, note));
        }

        if (!Directory.Exists(examLogFolder))
            return;
        foreach (var path in Directory.EnumerateFiles(examLogFolder, "*", SearchOption.AllDirectories))
            all.Add((path, File.ReadAllBytes(path)));
    }

    /// <summary>Adds what was opened.</summary>
    public void Add(string where, byte[] bytes) => all.Add((where, bytes));

    /// <summary>Where a text can be read; null for nowhere.</summary>
    public string? Find(string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        foreach (var (where, content) in all)
        {
            if (content.AsSpan().IndexOf(bytes) >= 0)
                return where;
        }

        return null;
    }

    // See docs/exam-log.md, "Going on without it": compressed JSON between a head and a check sum.
    private static byte[]? Unpacked(byte[] bytes)
    {
        if (!bytes.AsSpan().StartsWith("PBRESUM1"u8) || bytes.Length < NoteHead + NoteSum)
            return null;
        using var plain = new MemoryStream();
        using (
            var brotli = new BrotliStream(
                new MemoryStream(bytes, NoteHead, bytes.Length - NoteHead - NoteSum),
                CompressionMode.Decompress
            )
        )
            brotli.CopyTo(plain);
        return plain.ToArray();
    }
}
