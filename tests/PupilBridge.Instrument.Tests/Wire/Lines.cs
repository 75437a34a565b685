using System.Globalization;
using System.Text;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

/// <summary>Bytes of lines, made by the code under test or by hand.</summary>
internal static class Lines
{
    internal static byte[] Of(in InstrumentLine line)
    {
        var buffer = new byte[WireLimits.MaxLineBytes];
        return buffer[..InstrumentLineEncoder.Encode(line, buffer)];
    }

    internal static byte[] Of(in HostLine line)
    {
        var buffer = new byte[WireLimits.MaxLineBytes];
        return buffer[..HostLineEncoder.Encode(line, buffer)];
    }

    /// <summary>A body with its star and CRC, without the LF.</summary>
    internal static byte[] Sealed(string body)
    {
        var crc = LineCrc.Of(Encoding.Latin1.GetBytes(body)).ToString("X8", CultureInfo.InvariantCulture);
        return Encoding.Latin1.GetBytes($"{body}*{crc}");
    }

    internal static InstrumentLine Decoded(string body)
    {
        Assert.True(InstrumentLineDecoder.TryDecode(Sealed(body), out var line, out var fault), fault.Describe());
        return line;
    }

    internal static LineFault FaultOf(string body)
    {
        Assert.False(InstrumentLineDecoder.TryDecode(Sealed(body), out _, out var fault));
        return fault;
    }
}
