using System.Buffers;
using System.Buffers.Binary;
using System.Text;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>
/// Writes the fields of an entry: numbers in groups of seven bits with the lowest first, signed ones folded so that small
/// ones stay short, texts as their length in bytes and UTF-8, absent values as one zero byte.
/// </summary>
internal sealed class EntryWriter
{
    private readonly ArrayBufferWriter<byte> buffer = new(128);

    public ReadOnlySpan<byte> Written => buffer.WrittenSpan;

    public void Unsigned(ulong value)
    {
        var span = buffer.GetSpan(10);
        var length = 0;
        while (value >= 0x80)
        {
            span[length++] = (byte)(value | 0x80);
            value >>= 7;
        }

        span[length++] = (byte)value;
        buffer.Advance(length);
    }

    public void Signed(long value) => Unsigned(((ulong)value << 1) ^ (ulong)(value >> 63));

    public void Bytes(ReadOnlySpan<byte> value) => buffer.Write(value);

    public void Count(int value) => Unsigned((ulong)value);

    public void Flag(bool value) => Unsigned(value ? 1UL : 0UL);

    public void Choice<T>(T value)
        where T : struct, Enum => Signed(Convert.ToInt64(value, System.Globalization.CultureInfo.InvariantCulture));

    public void Fixed64(ulong value)
    {
        BinaryPrimitives.WriteUInt64LittleEndian(buffer.GetSpan(8), value);
        buffer.Advance(8);
    }

    public void Fixed128(UInt128 value)
    {
        BinaryPrimitives.WriteUInt128LittleEndian(buffer.GetSpan(16), value);
        buffer.Advance(16);
    }

    public void Text(string value)
    {
        var length = Encoding.UTF8.GetByteCount(value);
        Unsigned((ulong)length);
        Encoding.UTF8.GetBytes(value, buffer.GetSpan(Math.Max(1, length)));
        buffer.Advance(length);
    }

    public void Optional<T>(T? value, Action<EntryWriter, T> write)
        where T : struct
    {
        Flag(value.HasValue);
        if (value.HasValue)
            write(this, value.Value);
    }

    public void OptionalText(string? value)
    {
        Flag(value is not null);
        if (value is not null)
            Text(value);
    }
}
