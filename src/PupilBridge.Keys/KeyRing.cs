using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.Keys;

/// <summary>
/// The master keys at hand. Data keys are wrapped under the current one; those wrapped under an older one are still
/// opened. Immutable, and safe from any thread.
/// <para>
/// A wrapped key is one byte 1, the master key's name (8 bytes, big-endian), and the key in AES Key Wrap with Padding
/// (RFC 5649) under that master key: 49 bytes for a key of 32. The wrapping proves itself: a wrong key or an altered byte is
/// noticed with a certainty of 1 − 2⁻³² at least (RFC 5649, section 3).
/// </para>
/// </summary>
public sealed class KeyRing
{
    private const byte Format = 1;
    private const int HeadBytes = 1 + MasterKeyId.ByteCount;
    private readonly Dictionary<MasterKeyId, MasterKey> keys;

    /// <summary>A ring of keys.</summary>
    /// <param name="current">The one under which new keys are wrapped; it is among the keys.</param>
    /// <param name="keys">All keys.</param>
    /// <exception cref="ArgumentException">The current key is not among them, or two bear the same name.</exception>
    public KeyRing(MasterKeyId current, IEnumerable<MasterKey> keys)
    {
        this.keys = keys.ToDictionary(key => key.Id);
        if (!this.keys.ContainsKey(current))
        {
            throw new ArgumentException($"The current master key {current} is not among the keys.", nameof(current));
        }

        Current = current;
    }

    /// <summary>The key under which new keys are wrapped.</summary>
    public MasterKeyId Current { get; }

    /// <summary>All keys, the oldest first.</summary>
    public IReadOnlyList<MasterKey> Keys => [.. keys.Values.OrderBy(key => key.Made).ThenBy(key => key.Id.Value)];

    /// <summary>A ring of one new key.</summary>
    public static KeyRing Create(TimeProvider time)
    {
        var key = MasterKey.Create(time);
        return new KeyRing(key.Id, [key]);
    }

    /// <summary>The ring with one key more, which becomes the current one.</summary>
    public KeyRing With(MasterKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return new KeyRing(key.Id, [.. keys.Values, key]);
    }

    /// <summary>The ring without those keys that are neither current nor named.</summary>
    public KeyRing Keeping(IReadOnlySet<MasterKeyId> needed) =>
        new(Current, keys.Values.Where(key => key.Id == Current || needed.Contains(key.Id)));

    /// <summary>Wraps a key of 1 to 4,096 bytes under the current master key.</summary>
    public byte[] Wrap(ReadOnlySpan<byte> key)
    {
        ArgumentOutOfRangeException.ThrowIfZero(key.Length);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key.Length, 4096);
        using var aes = AesOf(keys[Current]);
        var wrapped = aes.EncryptKeyWrapPadded(key);
        var bytes = new byte[HeadBytes + wrapped.Length];
        bytes[0] = Format;
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(1), Current.Value);
        wrapped.CopyTo(bytes.AsSpan(HeadBytes));
        return bytes;
    }

    /// <summary>Opens a wrapped key.</summary>
    /// <returns>The key, which the caller should overwrite when it is done with it.</returns>
    /// <exception cref="MasterKeyMissingException">The master key is not at hand.</exception>
    /// <exception cref="KeyException">The master key is another one of the same name, or the bytes were altered.</exception>
    public byte[] Unwrap(ReadOnlySpan<byte> wrapped)
    {
        var id = WrappedUnder(wrapped);
        if (!keys.TryGetValue(id, out var key))
        {
            throw new MasterKeyMissingException(
                $"Master key {id} is wanted and not at hand (there {(keys.Count == 1 ? "is" : "are")} "
                    + $"{string.Join(", ", keys.Keys)}). Put the key file back that holds it."
            )
            {
                Id = id,
            };
        }

        using var aes = AesOf(key);
        try
        {
            return aes.DecryptKeyWrapPadded(wrapped[HeadBytes..]);
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException)
        {
            throw new KeyException(
                $"What is said to be wrapped under master key {id} does not open with it: it was altered, or the key file holds "
                    + "another key of that name. Put back the key file, or the wrapped key, that belongs here.",
                e
            );
        }
    }

    /// <summary>Opens a wrapped key and wraps it under the current master key.</summary>
    /// <exception cref="KeyException">It cannot be opened.</exception>
    public byte[] WrapAnew(ReadOnlySpan<byte> wrapped)
    {
        var key = Unwrap(wrapped);
        try
        {
            return Wrap(key);
        }
        finally
        {
            CryptographicOperations.ZeroMemory(key);
        }
    }

    /// <summary>The name of the master key under which something was wrapped.</summary>
    /// <exception cref="KeyException">The bytes are no wrapped key, or one of a newer form.</exception>
    public static MasterKeyId WrappedUnder(ReadOnlySpan<byte> wrapped)
    {
        // The shortest wrapping of RFC 5649 is two blocks of eight bytes.
        if (wrapped.Length < HeadBytes + 16 || wrapped[0] != Format)
        {
            throw new KeyException("The bytes are no wrapped key that this version of the program knows.");
        }

        return new MasterKeyId(BinaryPrimitives.ReadUInt64BigEndian(wrapped[1..]));
    }

    private static Aes AesOf(MasterKey key)
    {
        var aes = Aes.Create();
        aes.SetKey(key.Bytes);
        return aes;
    }
}
