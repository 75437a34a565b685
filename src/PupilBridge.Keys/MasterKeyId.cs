using System.Globalization;
using System.Security.Cryptography;

namespace PupilBridge.Keys;

/// <summary>The name of a master key: 64 random bits, written as 16 lower-case hexadecimal digits. It is no secret.</summary>
/// <param name="Value">The bits.</param>
public readonly record struct MasterKeyId(ulong Value)
{
    /// <summary>The length in bytes where it stands in binary form.</summary>
    public const int ByteCount = 8;

    /// <summary>A new name.</summary>
    public static MasterKeyId Random() => new(BitConverter.ToUInt64(RandomNumberGenerator.GetBytes(ByteCount)));

    /// <summary>Reads 16 hexadecimal digits.</summary>
    public static bool TryParse(string? text, out MasterKeyId id)
    {
        var sound =
            ulong.TryParse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var value)
            && text!.Length == 2 * ByteCount;
        id = sound ? new MasterKeyId(value) : default;
        return sound;
    }

    /// <inheritdoc/>
    public override string ToString() => Value.ToString("x16", CultureInfo.InvariantCulture);
}
