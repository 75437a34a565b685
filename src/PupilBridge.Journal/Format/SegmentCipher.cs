using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.Journal;

/// <summary>
/// Encrypts and opens the records of one segment: AES-256-GCM (NIST SP 800-38D) under the segment's own key. The nonce is four
/// zero bytes and the record's sequence (8 bytes, little-endian); the associated data are the record's first 56 bytes as they stand
/// on disk. A sequence is given once within a segment, and no segment is opened again for appending, so no nonce repeats under a
/// key. Not safe from several threads.
/// </summary>
internal sealed class SegmentCipher : IDisposable
{
    public const int KeyBytes = 32;
    private const int NonceBytes = 12;
    private readonly AesGcm _gcm;
    private long _lastSealed;

    /// <param name="key">32 bytes; they are copied.</param>
    public SegmentCipher(ReadOnlySpan<byte> key)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(key.Length, KeyBytes);
        _gcm = new AesGcm(key, RecordLayout.TagBytes);
    }

    /// <summary>Puts a payload, encrypted, and its tag into a record whose first 56 bytes are complete.</summary>
    /// <exception cref="InvalidOperationException">The sequence was sealed under this key before.</exception>
    public void Seal(Span<byte> record, ReadOnlySpan<byte> payload)
    {
        long sequence = RecordLayout.ReadSequence(record);
        if (sequence <= _lastSealed)
            throw new InvalidOperationException($"Sequence {sequence} was encrypted under this segment's key before.");
        _lastSealed = sequence;
        Span<byte> nonce = stackalloc byte[NonceBytes];
        WriteNonce(nonce, sequence);
        Span<byte> stored = record[RecordLayout.PayloadAt..^RecordLayout.CrcBytes];
        _gcm.Encrypt(
            nonce,
            payload,
            stored[..payload.Length],
            stored[payload.Length..],
            record[..RecordLayout.PayloadAt]
        );
    }

    /// <summary>The payload of a record; null if it is not what was sealed under this key.</summary>
    public byte[]? Open(ReadOnlySpan<byte> record)
    {
        ReadOnlySpan<byte> stored = RecordLayout.PayloadOf(record);
        if (stored.Length <= RecordLayout.TagBytes)
            return null;
        byte[] payload = new byte[stored.Length - RecordLayout.TagBytes];
        return Open(record, payload) ? payload : null;
    }

    /// <summary>Opens a record into a buffer of its payload's length; false if it is not what was sealed under this key.</summary>
    public bool Open(ReadOnlySpan<byte> record, Span<byte> payload)
    {
        Span<byte> nonce = stackalloc byte[NonceBytes];
        WriteNonce(nonce, RecordLayout.ReadSequence(record));
        ReadOnlySpan<byte> stored = RecordLayout.PayloadOf(record);
        try
        {
            _gcm.Decrypt(
                nonce,
                stored[..payload.Length],
                stored[payload.Length..],
                payload,
                record[..RecordLayout.PayloadAt]
            );
            return true;
        }
        catch (AuthenticationTagMismatchException)
        {
            return false;
        }
    }

    public void Dispose() => _gcm.Dispose();

    private static void WriteNonce(Span<byte> nonce, long sequence)
    {
        nonce[..4].Clear();
        BinaryPrimitives.WriteInt64LittleEndian(nonce[4..], sequence);
    }
}
