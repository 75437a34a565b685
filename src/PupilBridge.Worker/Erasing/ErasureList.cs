using System.Text;
using System.Text.Json;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Erasing;

/// <summary>
/// The list of a data folder's erasures, in a file outside the journal that every backup takes along: so that a backup made before an
/// erasure can go through it again, though its own journal does not know of it. It follows from the journal, and what it lacks is put in
/// at the next start. One erasure a line, as JSON: its sequence, and the journal's entry in base 64.
/// </summary>
/// <remarks>Not safe for several threads.</remarks>
public static class ErasureList
{
    /// <summary>The file in the data folder.</summary>
    public const string FileName = "erasures.jsonl";

    /// <summary>The file of erasures that a restored journal lacks, until they are entered into it.</summary>
    public const string ToRepeatFileName = "erasures-to-repeat.jsonl";

    private static readonly JsonSerializerOptions Written = new(JsonSerializerDefaults.Web);

    /// <summary>Reads a list; a line that was cut off is passed over.</summary>
    /// <param name="bytes">The bytes of one file, or of several one behind the other.</param>
    public static IReadOnlyList<ListedErasure> Read(ReadOnlySpan<byte> bytes) =>
        [
            .. Encoding
                .UTF8.GetString(bytes)
                .Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(ReadLine)
                .OfType<ListedErasure>()
                .DistinctBy(one => one.Order.Id),
        ];

    /// <summary>A list as it is written.</summary>
    /// <param name="erasures">The erasures.</param>
    public static byte[] ToBytes(IEnumerable<ListedErasure> erasures)
    {
        ArgumentNullException.ThrowIfNull(erasures);
        return Encoding.UTF8.GetBytes(string.Concat(erasures.Select(one => ToLine(one) + "\n")));
    }

    /// <summary>Reads a list of a data folder.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="name">Which list.</param>
    /// <returns>None where there is no such file.</returns>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static IReadOnlyList<ListedErasure> Read(IJournalDisk disk, string dataFolder, string name = FileName)
    {
        ArgumentNullException.ThrowIfNull(disk);
        if (!disk.List(dataFolder).Contains(name))
            return [];
        return Read(WholeFile.Read(disk, Path.Combine(dataFolder, name)));
    }

    /// <summary>Adds an erasure to a data folder's list, on disk when this returns; one that stands there already is not added.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
    /// <param name="erasure">The erasure.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    public static void Add(IJournalDisk disk, string dataFolder, ListedErasure erasure)
    {
        ArgumentNullException.ThrowIfNull(erasure);
        if (Read(disk, dataFolder).Any(known => known.Order.Id == erasure.Order.Id))
            return;
        var path = Path.Combine(dataFolder, FileName);
        var isNew = !disk.List(dataFolder).Contains(FileName);
        using (var file = disk.Open(path, isNew ? JournalFileMode.CreateNew : JournalFileMode.ReadWrite))
        {
            // Behind a line that was cut off a new one begins.
            var line = (file.Length == 0 ? "" : "\n") + ToLine(erasure) + "\n";
            file.Write(Encoding.UTF8.GetBytes(line), file.Length);
            file.Sync();
        }

        if (isNew)
            disk.SyncFolder(dataFolder);
    }

    private static string ToLine(ListedErasure erasure) =>
        JsonSerializer.Serialize(new Line(erasure.Sequence, EntryCodec.Encode(erasure.Order)), Written);

    private static ListedErasure? ReadLine(string text)
    {
        try
        {
            return
                JsonSerializer.Deserialize<Line>(text, Written) is { Entry: { } entry } line
                && EntryCodec.TryDecode(entry, out var read, out _)
                && read is PatientErased order
                ? new ListedErasure(line.Sequence, order)
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private sealed record Line(long Sequence, byte[]? Entry);
}
