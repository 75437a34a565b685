using PupilBridge.Fuzz.Codec;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Fuzz.Tests.Planted;

/// <summary>The product's codec with one fault: a wrong checksum is taken for right when its last digit is the only one that differs.</summary>
internal sealed class SpoiltCodec : ILineCodec
{
    private readonly ProductCodec sound = new();
    private readonly byte[] mended = new byte[256];

    public bool Instrument(ReadOnlySpan<byte> content, out InstrumentLine line, out LineFault fault)
    {
        if (sound.Instrument(content, out line, out fault) || fault.Kind != LineFaultKind.BadCheck)
            return fault.Kind == LineFaultKind.None;
        content.CopyTo(mended);
        foreach (var digit in "0123456789ABCDEF"u8)
        {
            mended[content.Length - 1] = digit;
            if (sound.Instrument(mended.AsSpan(0, content.Length), out line, out fault))
                return true;
        }

        return false;
    }

    public bool Host(ReadOnlySpan<byte> content, out HostLine line, out LineFault fault) =>
        sound.Host(content, out line, out fault);

    public int Write(in InstrumentLine line, Span<byte> into) => sound.Write(line, into);

    public int Write(in HostLine line, Span<byte> into) => sound.Write(line, into);
}
