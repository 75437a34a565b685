using System.Buffers.Binary;
using System.IO.Hashing;
using System.Security.Cryptography;
using PupilBridge.Keys;

namespace PupilBridge.Worker.Protection;

/// <summary>
/// A small file as it lies on disk where the journal is encrypted. Eight bytes by which it is told from a plain one (<c>PBSEALD1</c>), the
/// length of the wrapped key (4, little-endian), the key under a master key, the content in AES-256-GCM (NIST SP 800-38D) bound to all
/// before, the tag (16), XxHash3 of all before. Each writing has a key of its own, so the nonce is zero.
/// </summary>
/// <param name="keys">The master keys at hand; null for none.</param>
/// <param name="encrypt">Whether files are encrypted from now on; either kind is read.</param>
internal sealed class FileSeal(KeyRing? keys, bool encrypt)
{
    private const ulong Magic = 0x5042_5345_414C_4431; // "PBSEALD1"
    private const int KeyBytes = 32;
    private const int TagBytes = 16;
    private const int EndBytes = TagBytes + sizeof(ulong);
    private const int WrappedAt = 12;

    /// <summary>Nothing is encrypted, and nothing that is can be read.</summary>
    public static FileSeal None { get; } = new(null, false);

    /// <summary>The bytes to write.</summary>
    public byte[] Close(byte[] content)
    {
        if (!encrypt || keys is null)
            return content;
        var key = RandomNumberGenerator.GetBytes(KeyBytes);
        var wrapped = keys.Wrap(key);
        var output = new byte[WrappedAt + wrapped.Length + content.Length + EndBytes];
        BinaryPrimitives.WriteUInt64LittleEndian(output, Magic);
        BinaryPrimitives.WriteInt32LittleEndian(output.AsSpan(8), wrapped.Length);
        wrapped.CopyTo(output, WrappedAt);
        var at = WrappedAt + wrapped.Length;
        using var aes = new AesGcm(key, TagBytes);
        aes.Encrypt(
            new byte[12],
            content,
            output.AsSpan(at, content.Length),
            output.AsSpan(at + content.Length, TagBytes),
            output.AsSpan(0, at)
        );
        CryptographicOperations.ZeroMemory(key);
        BinaryPrimitives.WriteUInt64LittleEndian(output.AsSpan(^8..), XxHash3.HashToUInt64(output.AsSpan(..^8)));
        return output;
    }

    /// <summary>The content that was written.</summary>
    /// <returns>Null where it is encrypted and cannot be opened.</returns>
    public byte[]? Open(byte[] bytes)
    {
        if (Wrapped(bytes) is not { } wrapped)
            return bytes;
        if (keys is null)
            return null;
        var at = WrappedAt + wrapped.Length;
        try
        {
            var key = keys.Unwrap(wrapped.Span);
            var plain = new byte[bytes.Length - at - EndBytes];
            using var aes = new AesGcm(key, TagBytes);
            aes.Decrypt(
                new byte[12],
                bytes.AsSpan(at, plain.Length),
                bytes.AsSpan(at + plain.Length, TagBytes),
                plain,
                bytes.AsSpan(0, at)
            );
            CryptographicOperations.ZeroMemory(key);
            return plain;
        }
        catch (Exception e) when (e is KeyException or CryptographicException or ArgumentException)
        {
            return null;
        }
    }

    /// <summary>Under which master key the key of a file is wrapped; null where it is not encrypted, or damaged.</summary>
    public static MasterKeyId? WrappedUnder(byte[] bytes)
    {
        try
        {
            return Wrapped(bytes) is { } wrapped ? KeyRing.WrappedUnder(wrapped.Span) : null;
        }
        catch (Exception e) when (e is KeyException or ArgumentException)
        {
            return null;
        }
    }

    private static ReadOnlyMemory<byte>? Wrapped(byte[] bytes)
    {
        if (
            bytes.Length < WrappedAt + EndBytes
            || BinaryPrimitives.ReadUInt64LittleEndian(bytes) != Magic
            || BinaryPrimitives.ReadUInt64LittleEndian(bytes.AsSpan(^8..)) != XxHash3.HashToUInt64(bytes.AsSpan(..^8))
        )
            return null;
        var length = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(8));
        return length >= 0 && length <= bytes.Length - WrappedAt - EndBytes ? bytes.AsMemory(WrappedAt, length) : null;
    }
}
