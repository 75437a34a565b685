using System.Text;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Keys;
using PupilBridge.Keys.Files;

namespace PupilBridge.Fuzz.Importing;

/// <summary>The file of master keys: refused in words that repeat nothing of a key, or read, and the same after writing and reading again.</summary>
internal static class KeyFileBodies
{
    private static readonly DateTimeOffset Made = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    public static IFuzzTarget Files() => new BodyTarget("key-file", Seeds(), Read);

    private static ulong Read(ReadOnlySpan<byte> body)
    {
        var signature = new Signature();
        try
        {
            var ring = KeyFileText.Read(body);
            var written = KeyFileText.Write(ring);
            if (!KeyFileText.Write(KeyFileText.Read(written)).AsSpan().SequenceEqual(written))
                throw new Finding(
                    "A key file that was read is not the same after it was written and read again",
                    Readable.Of(body)
                );
            signature.Add(1);
            signature.Bucket(ring.Keys.Count);
        }
        catch (KeyException refused)
        {
            if (refused.Message.Length == 0)
                throw new Finding("A key file is refused without a word", Readable.Of(body));
            var text = Encoding.UTF8.GetString(body);
            if (
                Secrets.Any(secret =>
                    text.Contains(secret, StringComparison.Ordinal)
                    && refused.Message.Contains(secret, StringComparison.Ordinal)
                )
            )
                throw new Finding("A refusal of a key file repeats a key", refused.Message);
            signature.Add(
                refused
                    .Message.AsSpan(0, Math.Min(24, refused.Message.Length))
                    .ToString()
                    .GetHashCode(StringComparison.Ordinal) & 0xFFFF
            );
        }

        return signature.Bits;
    }

    private static IReadOnlyList<string> Secrets { get; } =
    [.. new byte[] { 1, 2, 3 }.Select(n => Convert.ToBase64String(Bytes(n)))];

    private static IEnumerable<byte[]> Seeds()
    {
        var (first, second) = (Key(1), Key(2));
        yield return KeyFileText.Write(new KeyRing(first.Id, [first]));
        yield return KeyFileText.Write(new KeyRing(second.Id, [first, second, Key(3)]));
    }

    private static MasterKey Key(byte number) =>
        new(new MasterKeyId(number * 0x0101_0101_0101_0101UL), Bytes(number), Made.AddDays(number));

    private static byte[] Bytes(byte number) =>
        [.. Enumerable.Range(0, MasterKey.ByteCount).Select(i => (byte)((i * 37) + number))];
}
