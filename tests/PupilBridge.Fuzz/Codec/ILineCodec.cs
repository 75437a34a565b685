using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Fuzz.Codec;

/// <summary>The codec that is tried. A seam, so that tests can prove that a spoilt one is found.</summary>
internal interface ILineCodec
{
    bool Instrument(ReadOnlySpan<byte> content, out InstrumentLine line, out LineFault fault);

    bool Host(ReadOnlySpan<byte> content, out HostLine line, out LineFault fault);

    int Write(in InstrumentLine line, Span<byte> into);

    int Write(in HostLine line, Span<byte> into);
}

/// <summary>The product's codec.</summary>
internal sealed class ProductCodec : ILineCodec
{
    public bool Instrument(ReadOnlySpan<byte> content, out InstrumentLine line, out LineFault fault) =>
        InstrumentLineDecoder.TryDecode(content, out line, out fault);

    public bool Host(ReadOnlySpan<byte> content, out HostLine line, out LineFault fault) =>
        HostLineDecoder.TryDecode(content, out line, out fault);

    public int Write(in InstrumentLine line, Span<byte> into) => InstrumentLineEncoder.Encode(line, into);

    public int Write(in HostLine line, Span<byte> into) => HostLineEncoder.Encode(line, into);
}
