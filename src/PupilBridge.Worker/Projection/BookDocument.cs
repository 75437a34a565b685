using System.Collections.Immutable;
using System.IO.Compression;
using System.Text.Json;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// The reducer's book as the exam log carries it beside its position, so that a start goes on exactly where the exam log stands. A
/// journal read from its beginning would meet exams in the log as they became later, and the reducer's answer depends on what they were.
/// </summary>
internal static class BookDocument
{
    /// <summary>
    /// Writes a book, packed (zlib, RFC 1950) as it is written: it is written with every step, and in a house of many instruments it would be
    /// megabytes of much the same words in one piece. Open exams are named only: they stand in the exam log at the same position.
    /// </summary>
    public static byte[] Write(ExamBook book)
    {
        using var bytes = new MemoryStream();
        using (var packed = new ZLibStream(bytes, CompressionLevel.Fastest))
            ExamJson.WriteOther(packed, StoredOf(book));
        return bytes.ToArray();
    }

    private static Stored StoredOf(ExamBook book) =>
        new(
            book.LastApplied.Value,
            book.Profile,
            book.ProgramVersion,
            [.. book.Lanes.Values],
            [.. book.OpenExams.Keys.Select(id => id.Value)],
            [.. book.Mergings.All],
            [.. book.DiscSets.Values],
            book.NextCertificate,
            [.. book.OpenRuns.Keys.Select(id => id.Value)],
            book.LastErasure.Value
        );

    /// <summary>Reads a book.</summary>
    /// <param name="position">Where the exam log stands; at 0 nothing is carried.</param>
    /// <param name="bytes">What <see cref="Write"/> gave.</param>
    /// <param name="find">Finds an exam in the exam log.</param>
    /// <exception cref="JsonException">It is something else, or an open exam is missing.</exception>
    public static ExamBook Read(long position, ReadOnlyMemory<byte> bytes, Func<ExamId, Exam?> find)
    {
        if (position == 0)
            return ExamBook.Empty;
        var stored = Unpack(bytes);
        return ExamBook.Empty with
        {
            LastApplied = new JournalSequence(stored.LastApplied),
            Profile = stored.Profile,
            ProgramVersion = stored.ProgramVersion,
            Lanes = ExamBook.Empty.Lanes.AddRange(
                stored.Lanes.Select(lane => KeyValuePair.Create(lane.Serial.Value, lane))
            ),
            Mergings = PatientMergings.Of(stored.Mergings),
            DiscSets = ExamBook.Empty.DiscSets.AddRange(
                stored.DiscSets.Select(entered => KeyValuePair.Create(entered.Set.Name, entered))
            ),
            NextCertificate = stored.NextCertificate,
            LastErasure = new JournalSequence(stored.LastErasure),
            OpenExams = Found(stored.OpenExams, find),
            OpenRuns = Found(stored.OpenRuns, find),
        };
    }

    /// <summary>Reads what is packed, and what versions before wrote unpacked: JSON, which never begins as zlib does.</summary>
    private static Stored Unpack(ReadOnlyMemory<byte> bytes)
    {
        if (bytes.Span is [(byte)'{', ..])
            return ExamJson.ReadOther<Stored>(bytes.Span);
        using var packed = new ZLibStream(new MemoryStream(bytes.ToArray()), CompressionMode.Decompress);
        try
        {
            return ExamJson.ReadOther<Stored>(packed);
        }
        catch (InvalidDataException e)
        {
            throw new JsonException(e.Message, e);
        }
    }

    private static ImmutableSortedDictionary<ExamId, Exam> Found(
        ImmutableArray<long> numbers,
        Func<ExamId, Exam?> find
    ) =>
        numbers
            .Select(number => new ExamId(number))
            .ToImmutableSortedDictionary(
                id => id,
                id => find(id) ?? throw new JsonException($"The open sitting {id} is missing.")
            );

    private sealed record Stored(
        long LastApplied,
        Profile Profile,
        string ProgramVersion,
        ImmutableArray<LaneState> Lanes,
        ImmutableArray<long> OpenExams,
        ImmutableArray<PatientMerging> Mergings,
        ImmutableArray<DiscSetEntered> DiscSets,
        long NextCertificate,
        ImmutableArray<long> OpenRuns,
        long LastErasure
    );
}
