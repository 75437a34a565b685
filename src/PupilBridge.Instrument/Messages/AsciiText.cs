using System.Runtime.InteropServices;
using System.Text;

namespace PupilBridge.Instrument;

/// <summary>
/// A short text out of a line, held by value so that reading a line allocates nothing: 0 to 40 characters of printable
/// ASCII without <c>,</c> and <c>*</c>. The default value is the empty text.
/// </summary>
public readonly record struct AsciiText
{
    /// <summary>The most characters that it holds.</summary>
    public const int MaxLength = 40;

    // Five words rather than an inline array: words compare and hash by value without code of our own.
    private readonly ulong word0;
    private readonly ulong word1;
    private readonly ulong word2;
    private readonly ulong word3;
    private readonly ulong word4;
    private readonly byte length;

    private AsciiText(ReadOnlySpan<byte> bytes)
    {
        Span<ulong> words = stackalloc ulong[MaxLength / sizeof(ulong)];
        words.Clear();
        bytes.CopyTo(MemoryMarshal.AsBytes(words));
        (word0, word1, word2, word3, word4) = (words[0], words[1], words[2], words[3], words[4]);
        length = (byte)bytes.Length;
    }

    /// <summary>The number of characters, 0 to 40.</summary>
    public int Length => length;

    /// <summary>Takes a text that is known to be well formed.</summary>
    /// <param name="text">0 to 40 characters of printable ASCII without <c>,</c> and <c>*</c>.</param>
    /// <returns>The same text, held by value.</returns>
    /// <exception cref="ArgumentException">The text is too long or holds another character.</exception>
    public static AsciiText From(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        Span<byte> bytes = stackalloc byte[MaxLength];
        if (text.Length > MaxLength || !IsClean(text))
        {
            throw new ArgumentException(
                $"A text on the line has at most {MaxLength} printable ASCII characters, without ',' and '*'; this is '{text}'.",
                nameof(text)
            );
        }

        return new AsciiText(bytes[..Encoding.ASCII.GetBytes(text, bytes)]);
    }

    /// <summary>Copies the characters as bytes.</summary>
    /// <param name="destination">Room for <see cref="Length"/> bytes.</param>
    /// <returns>The number of bytes written.</returns>
    public int CopyTo(Span<byte> destination)
    {
        Span<ulong> words = [word0, word1, word2, word3, word4];
        MemoryMarshal.AsBytes(words)[..length].CopyTo(destination);
        return length;
    }

    /// <inheritdoc/>
    public override string ToString()
    {
        Span<byte> bytes = stackalloc byte[MaxLength];
        return Encoding.ASCII.GetString(bytes[..CopyTo(bytes)]);
    }

    /// <summary>Takes bytes out of a line whose characters were checked already.</summary>
    internal static AsciiText FromChecked(ReadOnlySpan<byte> bytes) => new(bytes);

    private static bool IsClean(string text)
    {
        foreach (var c in text)
        {
            if (c is < ' ' or > '~' or ',' or '*')
                return false;
        }

        return true;
    }
}
