using System.Buffers.Binary;
using System.Collections.Immutable;
using System.IO.Compression;
using System.IO.Hashing;
using System.Text.Json;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Projection.Resuming;

/// <summary>
/// A point as bytes: a magic number, the build of the program that wrote it, the point as compressed JSON, and a check sum of all of it.
/// </summary>
/// <remarks>
/// Another build of the program does not read it: what it would make of an older exam nobody has tried, and without a point the exams
/// are made anew from the journal.
/// </remarks>
internal static class ResumePointBytes
{
    private const ulong Magic = 0x5042_5245_5355_4D31; // "PBRESUM1"
    private const int HeadBytes = 8 + 16;
    private const int SumBytes = 8;

    private static Guid Build { get; } = typeof(Exam).Assembly.ManifestModule.ModuleVersionId;

    /// <summary>Writes a point.</summary>
    public static byte[] Write(ResumePoint point)
    {
        var body = Compress(ExamJson.WriteOther(Stored.Of(point)));
        var bytes = new byte[HeadBytes + body.Length + SumBytes];
        BinaryPrimitives.WriteUInt64BigEndian(bytes, Magic);
        Build.TryWriteBytes(bytes.AsSpan(8));
        body.CopyTo(bytes, HeadBytes);
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(^SumBytes..), Sum(bytes));
        return bytes;
    }

    /// <summary>Reads a point.</summary>
    /// <returns>Null where it is damaged, or of another build.</returns>
    public static ResumePoint? TryRead(byte[] bytes)
    {
        if (
            bytes.Length < HeadBytes + SumBytes
            || BinaryPrimitives.ReadUInt64BigEndian(bytes) != Magic
            || BinaryPrimitives.ReadUInt64BigEndian(bytes.AsSpan(^SumBytes..)) != Sum(bytes)
            || new Guid(bytes.AsSpan(8, 16)) != Build
        )
            return null;
        try
        {
            return ExamJson.ReadOther<Stored>(Decompress(bytes[HeadBytes..^SumBytes])).ToPoint();
        }
        catch (Exception e) when (e is JsonException or InvalidDataException or FormatException)
        {
            return null;
        }
    }

    private static ulong Sum(byte[] bytes) => XxHash3.HashToUInt64(bytes.AsSpan(..^SumBytes));

    private static byte[] Compress(byte[] plain)
    {
        using var packed = new MemoryStream();
        using (var brotli = new BrotliStream(packed, CompressionLevel.Fastest, leaveOpen: true))
            brotli.Write(plain);
        return packed.ToArray();
    }

    private static byte[] Decompress(byte[] packed)
    {
        using var plain = new MemoryStream();
        using (var brotli = new BrotliStream(new MemoryStream(packed), CompressionMode.Decompress))
            brotli.CopyTo(plain);
        return plain.ToArray();
    }

    private sealed record Stored(
        long Sequence,
        string Hash,
        byte[] Book,
        ImmutableArray<Exam> Open,
        ImmutableArray<Exam> Ended
    )
    {
        public static Stored Of(ResumePoint point) =>
            new(
                point.Position.Sequence,
                point.Position.Hash.ToString(),
                BookDocument.Write(point.Book),
                [.. point.Book.OpenExams.Values, .. point.Book.OpenRuns.Values],
                [.. point.Ended]
            );

        public ResumePoint ToPoint()
        {
            var open = Open.ToDictionary(exam => exam.Id);
            return new(
                new(Sequence, ChainHash.TryParse(Hash, out var hash) ? hash : throw new FormatException("no hash")),
                BookDocument.Read(Sequence, Book, open.GetValueOrDefault),
                Ended
            );
        }
    }
}
