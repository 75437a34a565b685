using System.Text;

namespace PupilBridge.Fuzz.Engine;

/// <summary>Bytes for a person: printable ASCII as it stands, everything else as \xx.</summary>
internal static class Readable
{
    private const int Most = 400;

    public static string Of(ReadOnlySpan<byte> bytes)
    {
        var text = new StringBuilder("\"");
        foreach (var b in bytes[..Math.Min(bytes.Length, Most)])
        {
            if (b is >= 0x20 and <= 0x7E and not (byte)'\\')
                text.Append((char)b);
            else
                text.Append('\\').Append(b.ToString("X2"));
        }

        return text.Append(bytes.Length > Most ? "…\"" : "\"").ToString();
    }
}
