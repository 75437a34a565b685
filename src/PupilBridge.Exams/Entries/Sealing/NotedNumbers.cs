using System.Security.Cryptography;
using System.Text;
using PupilBridge.Exams.Entries.Codec;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>
/// Patients' numbers in notes outside the journal, each sealed under its patient's key as in the journal, so that an erasure takes them
/// with it. Twelve random bytes, how many, and of each: one more than the key's slot (0 for an open number), the length, the bytes.
/// </summary>
/// <remarks>
/// AES-256-GCM with a nonce made of the twelve bytes and the place of the number. It is bound to all of the note's bytes before the list, to
/// its place and to its slot.
/// </remarks>
public static class NotedNumbers
{
    /// <summary>Writes a list.</summary>
    /// <param name="numbers">The numbers with their keys.</param>
    /// <param name="before">The note's bytes before the list.</param>
    public static byte[] Write(IReadOnlyList<NumberToNote> numbers, ReadOnlySpan<byte> before)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        var ofNote = RandomNumberGenerator.GetBytes(PieceCipher.NonceBytes);
        var nonce = new byte[PieceCipher.NonceBytes];
        var output = new EntryWriter();
        output.Bytes(ofNote);
        output.Count(numbers.Count);
        for (var i = 0; i < numbers.Count; i++)
        {
            var (number, slot, key) = numbers[i];
            output.Unsigned(slot is { } place ? (ulong)place.Value + 1 : 0);
            var plain = Encoding.UTF8.GetBytes(number.Value);
            if (slot is { } its)
            {
                PieceCipher.NonceOf(ofNote, i + 1, nonce);
                plain = key.IsEmpty ? [] : PieceCipher.Seal(key.Span, nonce, plain, Bound(before, i + 1, its));
            }

            output.Count(plain.Length);
            output.Bytes(plain);
        }

        return output.Written.ToArray();
    }

    /// <summary>Takes a list apart without opening anything.</summary>
    /// <param name="bytes">The list, to its end.</param>
    /// <returns>Null where the bytes are no such list.</returns>
    public static IReadOnlyList<NotedNumber>? Read(ReadOnlySpan<byte> bytes)
    {
        try
        {
            var reader = new EntryReader(bytes);
            var ofNote = reader.Take(PieceCipher.NonceBytes).ToArray();
            var numbers = new NotedNumber[reader.Count(bytes.Length)];
            for (var i = 0; i < numbers.Length; i++)
            {
                var slot = reader.Unsigned();
                var nonce = new byte[PieceCipher.NonceBytes];
                PieceCipher.NonceOf(ofNote, i + 1, nonce);
                var own = reader.Take(reader.Count(bytes.Length)).ToArray();
                numbers[i] = new(slot == 0 ? null : new KeySlot(checked((long)slot - 1)), nonce, own, i + 1);
            }

            return reader.AtEnd ? numbers : null;
        }
        catch (Exception e) when (e is FormatException or OverflowException)
        {
            return null;
        }
    }

    /// <summary>Opens a number.</summary>
    /// <param name="noted">The number as it stands there.</param>
    /// <param name="before">The note's bytes before the list.</param>
    /// <param name="keys">The keys.</param>
    /// <returns>The number, or what stands for one that was erased or cannot be read (<see cref="SealedNumbers"/>).</returns>
    public static string Open(NotedNumber noted, ReadOnlySpan<byte> before, ISubjectKeys keys)
    {
        ArgumentNullException.ThrowIfNull(noted);
        ArgumentNullException.ThrowIfNull(keys);
        if (noted.Slot is not { } slot)
            return Encoding.UTF8.GetString(noted.Bytes.Span);
        Span<byte> key = stackalloc byte[ISubjectKeys.KeyBytes];
        var state = keys.Read(slot, key);
        if (state == KeyState.Destroyed)
            return SealedNumbers.Erased(slot).Value;
        var plain =
            state == KeyState.Present && noted.Bytes.Length > PieceCipher.TagBytes
                ? PieceCipher.Open(key, noted.Nonce.Span, noted.Bytes.Span, Bound(before, noted.Place, slot))
                : null;
        CryptographicOperations.ZeroMemory(key);
        return plain is null ? SealedNumbers.Unreadable(slot).Value : Encoding.UTF8.GetString(plain);
    }

    private static byte[] Bound(ReadOnlySpan<byte> before, int place, KeySlot slot)
    {
        var own = new EntryWriter();
        own.Bytes("number in a note"u8);
        own.Count(place);
        own.Unsigned((ulong)slot.Value);
        return [.. before, .. own.Written];
    }
}
