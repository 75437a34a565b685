using System.Security.Cryptography;

namespace PupilBridge.Keys;

/// <summary>
/// A key of 256 bits that encrypts nothing but other keys. It prints its name and never itself.
/// </summary>
public sealed class MasterKey
{
    /// <summary>The length in bytes.</summary>
    public const int ByteCount = 32;

    private readonly byte[] bytes;

    /// <summary>A key of given bytes.</summary>
    /// <param name="id">Its name.</param>
    /// <param name="bytes">32 bytes; they are copied.</param>
    /// <param name="made">When it was made.</param>
    /// <exception cref="ArgumentException">There are not 32 bytes.</exception>
    public MasterKey(MasterKeyId id, ReadOnlySpan<byte> bytes, DateTimeOffset made)
    {
        if (bytes.Length != ByteCount)
        {
            throw new ArgumentException($"A master key has {ByteCount} bytes, not {bytes.Length}.", nameof(bytes));
        }

        Id = id;
        Made = made;
        this.bytes = bytes.ToArray();
    }

    /// <summary>Its name.</summary>
    public MasterKeyId Id { get; }

    /// <summary>When it was made.</summary>
    public DateTimeOffset Made { get; }

    /// <summary>The secret.</summary>
    internal ReadOnlySpan<byte> Bytes => bytes;

    /// <summary>A new key from the operating system's source of randomness.</summary>
    public static MasterKey Create(TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(time);
        Span<byte> secret = stackalloc byte[ByteCount];
        RandomNumberGenerator.Fill(secret);
        var key = new MasterKey(MasterKeyId.Random(), secret, time.GetUtcNow());
        CryptographicOperations.ZeroMemory(secret);
        return key;
    }

    /// <inheritdoc/>
    public override string ToString() => $"master key {Id}";
}
