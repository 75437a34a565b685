using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.Exchange.Research;

/// <summary>
/// Names and date shifts that only the holder of the house's secret can make again: HMAC-SHA-256 (RFC 2104, FIPS 198-1) under a key that
/// is itself made of the secret and the salt of one export. The same salt gives the same names; another salt gives others, which cannot be
/// matched with them.
/// </summary>
public sealed class Pseudonyms
{
    /// <summary>The fewest bytes of a secret.</summary>
    public const int SecretBytes = 32;

    /// <summary>The farthest that dates are shifted back, in days; the nearest is 1.</summary>
    public const int MostDays = 364;

    private const int NameBytes = 8;
    private readonly byte[] key;

    /// <summary>The names of one export.</summary>
    /// <param name="secret">The house's secret, at least <see cref="SecretBytes"/> bytes. It never leaves the house.</param>
    /// <param name="salt">What tells this export from others; it stands in no file.</param>
    /// <exception cref="ArgumentException">The secret is too short.</exception>
    public Pseudonyms(ReadOnlySpan<byte> secret, string salt)
    {
        ArgumentNullException.ThrowIfNull(salt);
        if (secret.Length < SecretBytes)
        {
            throw new ArgumentException($"A secret has at least {SecretBytes} bytes.", nameof(secret));
        }

        key = HMACSHA256.HashData(secret, Encoding.UTF8.GetBytes($"pupilbridge research 1\n{salt}"));
    }

    /// <summary>The name that stands for a patient.</summary>
    /// <param name="patient">The clinic's number.</param>
    public string Subject(string patient) => "S" + Name("subject", patient);

    /// <summary>The name that stands for an exam.</summary>
    /// <param name="exam">The exam's number.</param>
    public string Visit(long exam) => "V" + Name("visit", $"{exam}");

    /// <summary>The name that stands for an examiner.</summary>
    /// <param name="who">The sign-in name.</param>
    public string Examiner(string who) => "E" + Name("examiner", who);

    /// <summary>The name that stands for an instrument.</summary>
    /// <param name="serial">The serial number.</param>
    public string Instrument(string serial) => "I" + Name("instrument", serial);

    /// <summary>A day of a patient, shifted back by that patient's own number of days: intervals between a patient's days stay.</summary>
    /// <param name="patient">The clinic's number.</param>
    /// <param name="day">The day.</param>
    public DateOnly Shifted(string patient, DateOnly day)
    {
        var drawn = BinaryPrimitives.ReadUInt64BigEndian(Hash("shift", patient));
        // 2^64 over 364: the odds differ from day to day by less than one in 10^16.
        return day.AddDays(-1 - (int)(drawn % MostDays));
    }

    private string Name(string kind, string value) => Convert.ToHexStringLower(Hash(kind, value).AsSpan(0, NameBytes));

    private byte[] Hash(string kind, string value) =>
        HMACSHA256.HashData(key, Encoding.UTF8.GetBytes($"{kind}\n{value}"));
}
