using System.Globalization;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace PupilBridge.Keys.Files;

/// <summary>A ring of master keys as text: JSON, so that a person sees what it is. Each key bears a check of itself.</summary>
internal static class KeyFileText
{
    private const int Format = 1;
    private const string What =
        "Master keys of PupilBridge. Whoever has this file can read the clinic's journal; whoever loses it cannot. Keep a copy apart from the data.";

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static byte[] Write(KeyRing ring) =>
        JsonSerializer.SerializeToUtf8Bytes(
            new RingText(
                What,
                Format,
                ring.Current.ToString(),
                [.. ring.Keys.Select(key => new KeyText($"{key.Id}", Time(key.Made), Secret(key), Check(key)))]
            ),
            Options
        );

    /// <exception cref="KeyException">It is no such text; the message does not repeat any of it.</exception>
    public static KeyRing Read(ReadOnlySpan<byte> text)
    {
        RingText? read;
        try
        {
            read = JsonSerializer.Deserialize<RingText>(text, Options);
        }
        catch (JsonException)
        {
            throw new KeyException("It is no file of master keys.");
        }

        if (read is null || read.Format != Format)
        {
            throw new KeyException($"It is no file of master keys of format {Format}.");
        }

        try
        {
            var keys = (read.Keys ?? []).Select(Key).ToList();
            return MasterKeyId.TryParse(read.Current, out var current)
                ? new KeyRing(current, keys)
                : throw new KeyException("It does not say which master key is the current one.");
        }
        catch (ArgumentException e)
        {
            throw new KeyException($"Its master keys are not complete. {e.Message}", e);
        }
    }

    private static MasterKey Key(KeyText text)
    {
        Span<byte> secret = stackalloc byte[MasterKey.ByteCount];
        var isSound =
            MasterKeyId.TryParse(text.Id, out var id)
            & DateTimeOffset.TryParse(
                text.Made,
                CultureInfo.InvariantCulture,
                DateTimeStyles.AssumeUniversal,
                out var made
            )
            & (Convert.TryFromBase64String(text.Key ?? "", secret, out var count) && count == secret.Length);
        var key = isSound ? new MasterKey(id, secret, made) : null;
        CryptographicOperations.ZeroMemory(secret);
        return key is not null && Check(key) == text.Check
            ? key
            // Only what is a name is repeated: whoever mixed up the members has the key itself standing there.
            : throw new KeyException(
                MasterKeyId.TryParse(text.Id, out id)
                    ? $"Master key {id} in it is damaged."
                    : "One of the master keys in it is damaged, and its name with it."
            );
    }

    private static string Time(DateTimeOffset time) => time.UtcDateTime.ToString("O", CultureInfo.InvariantCulture);

    private static string Secret(MasterKey key) => Convert.ToBase64String(key.Bytes);

    /// <summary>Finds a mistake in copying; of 256 random bits it tells nothing that would help to find them.</summary>
    private static string Check(MasterKey key)
    {
        Span<byte> digest = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData([.. BitConverter.GetBytes(key.Id.Value), .. key.Bytes], digest);
        return Convert.ToHexStringLower(digest[..4]);
    }

    private sealed record RingText(string? What, int Format, string? Current, IReadOnlyList<KeyText>? Keys);

    private sealed record KeyText(string? Id, string? Made, string? Key, string? Check);
}
