using System.IO.Hashing;

namespace PupilBridge.Instrument.Wire;

/// <summary>
/// CRC-32/ISO-HDLC over the bytes of a line: reflected polynomial EDB88320, initial value and final exclusive-or FFFFFFFF.
/// Source: Greg Cook, Catalogue of parametrised CRC algorithms (RevEng); check value CBF43926 over "123456789".
/// </summary>
/// <remarks>
/// The library folds sixteen bytes at a time by carry-less multiplication where the processor can; at the length of our
/// lines that takes less than half the time of eight bytes at a time by tables.
/// </remarks>
public static class LineCrc
{
    /// <summary>The CRC of some bytes.</summary>
    /// <param name="bytes">Any bytes; none give 0.</param>
    /// <returns>The CRC.</returns>
    public static uint Of(ReadOnlySpan<byte> bytes) => Crc32.HashToUInt32(bytes);
}
