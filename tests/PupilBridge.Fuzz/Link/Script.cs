using System.Buffers.Text;

namespace PupilBridge.Fuzz.Link;

/// <summary>
/// An input of a link: lines for it, and between them, in lines that begin with '!', what else happens: <c>!t 500</c> half a second passes.
/// A letter that is not known does nothing, so that every change of an input is an input.
/// </summary>
internal ref struct Script(ReadOnlySpan<byte> input)
{
    private ReadOnlySpan<byte> rest = input;

    /// <summary>The next line with its LF.</summary>
    public ReadOnlySpan<byte> Line { get; private set; }

    /// <summary>What happens; 0 for a line that goes to the link.</summary>
    public readonly char Act => Line.Length > 1 && Line[0] == '!' ? (char)Line[1] : '\0';

    /// <summary>The number behind the letter, 0 to 60,000; another one where none stands.</summary>
    public readonly int Number(int otherwise) =>
        Line.Length > 3 && Utf8Parser.TryParse(Line[3..], out int number, out _)
            ? Math.Clamp(number, 0, 60_000)
            : otherwise;

    public bool Next()
    {
        if (rest.IsEmpty)
            return false;
        var end = rest.IndexOf((byte)10);
        var length = end < 0 ? rest.Length : end + 1;
        Line = rest[..length];
        rest = rest[length..];
        return true;
    }
}
