using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>
/// Seals one piece: AES-256 in Galois/Counter Mode (NIST SP 800-38D) with a nonce of 96 bits and a tag of 128. A piece that concerns two
/// patients is sealed under both keys at once (HKDF with SHA-256, RFC 5869, over the one behind the other), so that it goes with either.
/// </summary>
internal static class PieceCipher
{
    public const int NonceBytes = 12;
    public const int TagBytes = 16;

    private static ReadOnlySpan<byte> Purpose => "pupilbridge sealed piece 1"u8;

    /// <summary>The nonce of a piece within its entry.</summary>
    public static void NonceOf(ReadOnlySpan<byte> ofEntry, int piece, Span<byte> nonce)
    {
        ofEntry[..NonceBytes].CopyTo(nonce);
        var last = nonce[^4..];
        BinaryPrimitives.WriteUInt32BigEndian(last, BinaryPrimitives.ReadUInt32BigEndian(last) ^ (uint)piece);
    }

    /// <summary>Seals.</summary>
    /// <param name="keys">The key, or several keys behind each other.</param>
    /// <param name="nonce">Never the same twice under one key.</param>
    /// <param name="plain">What is to be sealed.</param>
    /// <param name="bound">What it belongs to and is checked with it.</param>
    /// <returns>The sealed bytes and behind them the tag.</returns>
    public static byte[] Seal(
        ReadOnlySpan<byte> keys,
        ReadOnlySpan<byte> nonce,
        ReadOnlySpan<byte> plain,
        ReadOnlySpan<byte> bound
    )
    {
        var output = new byte[plain.Length + TagBytes];
        using var aes = Cipher(keys);
        aes.Encrypt(nonce, plain, output.AsSpan(0, plain.Length), output.AsSpan(plain.Length), bound);
        return output;
    }

    /// <summary>Opens.</summary>
    /// <returns>What was sealed; null if it was altered, or sealed under another key.</returns>
    public static byte[]? Open(
        ReadOnlySpan<byte> keys,
        ReadOnlySpan<byte> nonce,
        ReadOnlySpan<byte> sealedBytes,
        ReadOnlySpan<byte> bound
    )
    {
        var plain = new byte[sealedBytes.Length - TagBytes];
        using var aes = Cipher(keys);
        try
        {
            aes.Decrypt(nonce, sealedBytes[..plain.Length], sealedBytes[plain.Length..], plain, bound);
            return plain;
        }
        catch (AuthenticationTagMismatchException)
        {
            return null;
        }
    }

    private static AesGcm Cipher(ReadOnlySpan<byte> keys)
    {
        Span<byte> key = stackalloc byte[ISubjectKeys.KeyBytes];
        HKDF.DeriveKey(HashAlgorithmName.SHA256, keys, key, [], Purpose);
        var cipher = new AesGcm(key, TagBytes);
        CryptographicOperations.ZeroMemory(key);
        return cipher;
    }
}
