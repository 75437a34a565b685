namespace PupilBridge.Fuzz.Codec;

/// <summary>
/// Lines out of bytes, all at once and the plain way, from docs/protocol.md, section 4: cut at each LF; what has no LF within 121 bytes is
/// no line; one CR before the LF and blank lines are passed over.
/// </summary>
internal static class ReferenceFramer
{
    /// <summary>Cuts bytes into lines.</summary>
    /// <param name="bytes">All bytes that came.</param>
    /// <param name="lines">Gets each line as start and length; a run that is too long as length -1.</param>
    public static void Cut(ReadOnlySpan<byte> bytes, List<(int Start, int Length)> lines)
    {
        lines.Clear();
        for (var start = 0; start < bytes.Length; )
        {
            var end = bytes[start..].IndexOf((byte)10);
            var length = end < 0 ? bytes.Length - start : end;
            if (length > 120 || (end >= 0 && length == 120 && bytes[start + 119] != 13))
                lines.Add((start, -1));
            else if (end >= 0)
            {
                var content = length > 0 && bytes[start + length - 1] == 13 ? length - 1 : length;
                if (content > 0)
                    lines.Add((start, content));
            }

            start += length + 1;
        }
    }
}
