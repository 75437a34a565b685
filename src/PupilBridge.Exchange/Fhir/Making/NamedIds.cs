using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>UUIDs made from names: version 8 of RFC 9562, from the first 128 bits of a SHA-256.</summary>
internal static class NamedIds
{
    public static string Of(string system, string value)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(Encoding.UTF8.GetBytes($"{system}|{value}"), hash);
        hash[6] = (byte)((hash[6] & 0x0F) | 0x80);
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        return new Guid(hash[..16], bigEndian: true).ToString();
    }
}
