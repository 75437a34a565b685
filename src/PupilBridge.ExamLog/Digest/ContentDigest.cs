using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;

namespace PupilBridge.ExamLog;

/// <summary>
/// One number that stands for the content of an exam log: two exam logs with the same documents have the same digest, whatever
/// the order in which these were written and however the engine laid them out.
/// </summary>
/// <remarks>
/// The digest is the sum, modulo 2^256, of the SHA-256 (FIPS 180-4) of each document's content. A sum does not ask for an order.
/// It guards against loss and decay, not against someone who may write to the files: that is the journal's chain.
/// </remarks>
/// <param name="Documents">How many documents there are.</param>
/// <param name="Value">The sum as 64 lower-case hexadecimal digits.</param>
public sealed record ContentDigest(long Documents, string Value)
{
    /// <inheritdoc/>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Value} ({Documents} documents)");

    /// <summary>Gathers documents in any order.</summary>
    internal sealed class Sum
    {
        private static readonly BigInteger Modulus = BigInteger.One << 256;
        private BigInteger total;
        private long documents;

        public void Add(ReadOnlySpan<byte> document)
        {
            Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
            SHA256.HashData(document, hash);
            total = (total + new BigInteger(hash, isUnsigned: true, isBigEndian: true)) % Modulus;
            documents++;
        }

        public ContentDigest Result()
        {
            var value = total.ToString("x64", CultureInfo.InvariantCulture);
            return new ContentDigest(documents, value.Length > 64 ? value[^64..] : value);
        }
    }
}
