using System.Buffers.Binary;
using System.Collections.Immutable;
using System.IO.Compression;
using System.IO.Hashing;
using System.Security.Cryptography;
using System.Text.Json;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.Projection.Resuming;

/// <summary>
/// A point as the bytes of a file: a magic number, the build of the program that wrote it, a wrapped key (of length 0 in the clear), the
/// point as compressed JSON, encrypted under that key where there is one, and a check sum of all of it.
/// </summary>
/// <remarks>
/// Another build of the program does not read it: what it would make of an older exam nobody has tried, and without a point the exams
/// are made anew from the journal. Each file has a key of its own, so that a nonce of zeros is used once.
/// </remarks>
internal static class ResumePointBytes
{
    private const ulong Magic = 0x5042_5245_5355_4D31; // "PBRESUM1"
    private const int KeyBytes = 32;
    private const int NonceBytes = 12;
    private const int TagBytes = 16;
    private const int HeadBytes = 8 + 16 + 4;
    private const int SumBytes = 8;

    private static Guid Build { get; } = typeof(Exam).Assembly.ManifestModule.ModuleVersionId;

    /// <summary>Writes a point.</summary>
    /// <param name="point">The point.</param>
    /// <param name="keys">The master keys under which it is encrypted; null for in the clear.</param>
    public static byte[] Write(ResumePoint point, KeyRing? keys)
    {
        var body = Compress(ExamJson.WriteOther(Stored.Of(point)));
        var wrapped = Array.Empty<byte>();
        if (keys is not null)
        {
            var key = RandomNumberGenerator.GetBytes(KeyBytes);
            wrapped = keys.Wrap(key);
            body = Seal(key, body);
        }

        var bytes = new byte[HeadBytes + wrapped.Length + body.Length + SumBytes];
        BinaryPrimitives.WriteUInt64BigEndian(bytes, Magic);
        Build.TryWriteBytes(bytes.AsSpan(8));
        BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(24), wrapped.Length);
        wrapped.CopyTo(bytes, HeadBytes);
        body.CopyTo(bytes, HeadBytes + wrapped.Length);
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(bytes.Length - SumBytes), Sum(bytes));
        return bytes;
    }

    /// <summary>Reads a point.</summary>
    /// <param name="bytes">What a file holds.</param>
    /// <param name="keys">The master keys at hand; null for none.</param>
    /// <returns>Null where it is damaged, of another build, or not to be opened with these keys.</returns>
    public static ResumePoint? TryRead(byte[] bytes, KeyRing? keys)
    {
        if (
            bytes.Length < HeadBytes + SumBytes
            || BinaryPrimitives.ReadUInt64BigEndian(bytes) != Magic
            || BinaryPrimitives.ReadUInt64BigEndian(bytes.AsSpan(bytes.Length - SumBytes)) != Sum(bytes)
            || new Guid(bytes.AsSpan(8, 16)) != Build
        )
            return null;
        var wrapped = BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(24));
        if (wrapped < 0 || wrapped > bytes.Length - HeadBytes - SumBytes)
            return null;
        try
        {
            var body = bytes[(HeadBytes + wrapped)..^SumBytes];
            if (wrapped > 0)
            {
                if (keys is null)
                    return null;
                body = Open(keys.Unwrap(bytes.AsSpan(HeadBytes, wrapped)), body);
            }

            return ExamJson.ReadOther<Stored>(Decompress(body)).ToPoint();
        }
        catch (Exception e)
            when (e
                    is KeyException
                        or CryptographicException
                        or JsonException
                        or InvalidDataException
                        or FormatException
            )
        {
            return null;
        }
    }

    private static ulong Sum(byte[] bytes) => XxHash3.HashToUInt64(bytes.AsSpan(0, bytes.Length - SumBytes));

    private static byte[] Seal(byte[] key, byte[] body)
    {
        var sealedBody = new byte[body.Length + TagBytes];
        using var gcm = new AesGcm(key, TagBytes);
        gcm.Encrypt(
            new byte[NonceBytes],
            body,
            sealedBody.AsSpan(0, body.Length),
            sealedBody.AsSpan(body.Length),
            Build.ToByteArray()
        );
        return sealedBody;
    }

    private static byte[] Open(byte[] key, byte[] sealedBody)
    {
        if (sealedBody.Length < TagBytes)
            throw new CryptographicException("It is too short.");
        var body = new byte[sealedBody.Length - TagBytes];
        using var gcm = new AesGcm(key, TagBytes);
        gcm.Decrypt(
            new byte[NonceBytes],
            sealedBody.AsSpan(0, body.Length),
            sealedBody.AsSpan(body.Length),
            body,
            Build.ToByteArray()
        );
        return body;
    }

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
