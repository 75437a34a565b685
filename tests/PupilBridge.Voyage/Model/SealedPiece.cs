using System.Security.Cryptography;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Voyage.Model;

/// <summary>One sealed piece of an entry, opened from docs/journal.md ("Sealed parts") alone.</summary>
/// <param name="Number">Its number within the kind of entry: 1 and 2 are of patients, 3 is a text, as a rule.</param>
/// <param name="Keys">The slots of its keys.</param>
/// <param name="Plain">What was sealed; null where it does not open.</param>
internal sealed record SealedPiece(int Number, IReadOnlyList<KeySlot> Keys, byte[]? Plain)
{
    private const int NonceBytes = 12;
    private const int TagBytes = 16;
    private const int SealedForm = 3;

    /// <summary>The pieces of an entry; none where nothing of it is sealed.</summary>
    /// <param name="entry">Its bytes.</param>
    /// <param name="keys">The keys that are left.</param>
    public static IReadOnlyList<SealedPiece> Of(ReadOnlySpan<byte> entry, OwnSubjectKeys keys)
    {
        var rest = entry;
        Take(ref rest);
        Take(ref rest);
        if (Take(ref rest) != SealedForm)
            return [];
        rest = rest[(int)Take(ref rest)..];
        var before = entry[..^rest.Length];
        var pieces = new SealedPiece[Take(ref rest)];
        for (var i = 0; i < pieces.Length; i++)
        {
            var head = rest;
            var number = (int)Take(ref rest);
            var slots = new KeySlot[Take(ref rest)];
            for (var j = 0; j < slots.Length; j++)
                slots[j] = new KeySlot((long)Take(ref rest));
            head = head[..^rest.Length];
            var nonce = rest[..NonceBytes];
            rest = rest[NonceBytes..];
            var length = (int)Take(ref rest);
            pieces[i] = new SealedPiece(
                number,
                slots,
                Opened(slots, nonce, rest[..length], [.. before, .. head], keys)
            );
            rest = rest[length..];
        }

        return pieces;
    }

    private static byte[]? Opened(
        KeySlot[] slots,
        ReadOnlySpan<byte> nonce,
        ReadOnlySpan<byte> stored,
        ReadOnlySpan<byte> bound,
        OwnSubjectKeys keys
    )
    {
        var all = new byte[slots.Length * 32];
        for (var i = 0; i < slots.Length; i++)
        {
            if (keys.Read(slots[i], all.AsSpan(i * 32, 32)) != KeyState.Present)
                return null;
        }

        using var aes = new AesGcm(
            HKDF.DeriveKey(HashAlgorithmName.SHA256, all, 32, [], "pupilbridge sealed piece 1"u8.ToArray()),
            TagBytes
        );
        var plain = new byte[stored.Length - TagBytes];
        try
        {
            aes.Decrypt(nonce, stored[..^TagBytes], stored[^TagBytes..], plain, bound);
            return plain;
        }
        catch (AuthenticationTagMismatchException)
        {
            return null;
        }
    }

    private static ulong Take(ref ReadOnlySpan<byte> rest)
    {
        var (value, shift) = (0UL, 0);
        while (true)
        {
            var next = rest[0];
            rest = rest[1..];
            value |= (ulong)(next & 0x7F) << shift;
            if (next < 0x80)
                return value;
            shift += 7;
        }
    }
}
