using System.Buffers.Text;

namespace PupilBridge.Instrument.Wire;

/// <summary>Writes the fields of one line into a buffer that is long enough for every line.</summary>
internal ref struct LineWriter
{
    private readonly Span<byte> destination;
    private int length;

    internal LineWriter(Span<byte> destination, ReadOnlySpan<byte> type)
    {
        if (destination.Length < WireLimits.MaxLineBytes)
        {
            throw new ArgumentException(
                $"A line is written into a buffer of at least {WireLimits.MaxLineBytes} bytes; this one has {destination.Length}.",
                nameof(destination)
            );
        }

        this.destination = destination[..WireLimits.MaxLineBytes];
        Append(type);
    }

    internal void Word(scoped ReadOnlySpan<byte> word)
    {
        destination[length++] = (byte)',';
        Append(word);
    }

    internal void Number(long value, long lowest, long highest, string what)
    {
        if (value < lowest || value > highest)
            throw new ArgumentOutOfRangeException(what, value, $"The line allows {lowest} to {highest}.");
        destination[length++] = (byte)',';
        Utf8Formatter.TryFormat(value, destination[length..], out var written);
        length += written;
    }

    internal void Hex16(ulong value)
    {
        destination[length++] = (byte)',';
        Hex((uint)(value >> 32));
        Hex((uint)value);
    }

    internal void Host(HostId host)
    {
        if (!host.IsKnown)
            throw new ArgumentException("A line names a host by a number other than zero.", nameof(host));
        destination[length++] = (byte)',';
        Hex(host.Value);
    }

    internal void Text(AsciiText text, int shortest, int longest, string what)
    {
        if (text.Length < shortest || text.Length > longest)
            throw new ArgumentOutOfRangeException(what, text, $"The line allows {shortest} to {longest} characters.");
        destination[length++] = (byte)',';
        length += text.CopyTo(destination[length..]);
    }

    /// <summary>Adds star, CRC and LF.</summary>
    /// <returns>The number of bytes of the line.</returns>
    internal int End()
    {
        var crc = LineCrc.Of(destination[..length]);
        destination[length++] = (byte)'*';
        Hex(crc);
        destination[length++] = (byte)'\n';
        return length;
    }

    private void Append(scoped ReadOnlySpan<byte> bytes)
    {
        bytes.CopyTo(destination[length..]);
        length += bytes.Length;
    }

    private void Hex(uint value)
    {
        for (var shift = 28; shift >= 0; shift -= 4)
            destination[length++] = "0123456789ABCDEF"u8[(int)(value >> shift) & 15];
    }
}
