using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Simulator;

namespace PupilBridge.Voyage.World;

/// <summary>Random bytes from a seed where the product takes the operating system's: for keys that lock nothing in a voyage.</summary>
internal sealed class SeededKeys(Chance chance) : RandomNumberGenerator
{
    public override void GetBytes(byte[] data) => GetBytes(data.AsSpan());

    public override void GetBytes(Span<byte> data)
    {
        Span<byte> bits = stackalloc byte[sizeof(ulong)];
        for (var at = 0; at < data.Length; at += bits.Length)
        {
            BinaryPrimitives.WriteUInt64LittleEndian(bits, chance.NextBits());
            bits[..Math.Min(bits.Length, data.Length - at)].CopyTo(data[at..]);
        }
    }
}
