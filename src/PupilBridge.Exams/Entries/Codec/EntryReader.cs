using System.Buffers.Binary;
using System.Text;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>
/// Reads what <see cref="EntryWriter"/> writes. A field that is cut off, out of range or not as the writer would have
/// written it throws <see cref="FormatException"/>, which <see cref="EntryCodec"/> turns into a refusal.
/// </summary>
internal ref struct EntryReader(ReadOnlySpan<byte> bytes)
{
    private static readonly UTF8Encoding StrictUtf8 = new(false, throwOnInvalidBytes: true);

    private ReadOnlySpan<byte> rest = bytes;

    public readonly bool AtEnd => rest.IsEmpty;

    public readonly ReadOnlySpan<byte> Rest => rest;

    public ulong Unsigned()
    {
        ulong value = 0;
        for (var shift = 0; shift < 64; shift += 7)
        {
            var next = Take(1)[0];
            if (shift == 63 && next > 1)
                break;
            value |= (ulong)(next & 0x7F) << shift;
            if (next >= 0x80)
                continue;
            // One number has one form only, so that equal entries are equal bytes.
            if (next == 0 && shift > 0)
                throw new FormatException("a number is written longer than needed");
            return value;
        }

        throw new FormatException("a number is too large");
    }

    public long Signed()
    {
        var folded = Unsigned();
        return (long)(folded >> 1) ^ -(long)(folded & 1);
    }

    public int Count(int most)
    {
        var value = Unsigned();
        return value <= (ulong)most
            ? (int)value
            : throw new FormatException($"the number {value} is larger than {most}");
    }

    public int Int32() =>
        Signed() is var value && value is >= int.MinValue and <= int.MaxValue
            ? (int)value
            : throw new FormatException($"the number {value} is out of range");

    public bool Flag() => Count(1) == 1;

    public T Choice<T>()
        where T : struct, Enum
    {
        var value = (T)Enum.ToObject(typeof(T), Signed());
        return Enum.IsDefined(value)
            ? value
            : throw new FormatException($"{value} is no {typeof(T).Name} that this version knows");
    }

    public ulong Fixed64() => BinaryPrimitives.ReadUInt64LittleEndian(Take(8));

    public UInt128 Fixed128() => BinaryPrimitives.ReadUInt128LittleEndian(Take(16));

    public string Text()
    {
        var length = Count(rest.Length);
        try
        {
            return StrictUtf8.GetString(Take(length));
        }
        catch (ArgumentException)
        {
            throw new FormatException("a text is not UTF-8");
        }
    }

    public string? OptionalText() => Flag() ? Text() : null;

    public ReadOnlySpan<byte> Take(int length)
    {
        if (length > rest.Length)
            throw new FormatException("it is cut off");
        var taken = rest[..length];
        rest = rest[length..];
        return taken;
    }
}
