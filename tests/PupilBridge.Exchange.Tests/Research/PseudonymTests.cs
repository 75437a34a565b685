using System.Security.Cryptography;
using System.Text;
using CsCheck;
using PupilBridge.Exchange.Research;

namespace PupilBridge.Exchange.Tests.Research;

public class PseudonymTests
{
    private static readonly byte[] Secret = [.. Enumerable.Range(1, 32).Select(n => (byte)n)];

    [Fact]
    public void A_patient_has_one_name_within_an_export_and_another_with_another_salt_or_secret()
    {
        var names = new Pseudonyms(Secret, "a");
        Assert.Equal(names.Subject("Q-1001"), new Pseudonyms(Secret, "a").Subject("Q-1001"));
        Assert.NotEqual(names.Subject("Q-1001"), names.Subject("Q-1002"));
        Assert.NotEqual(names.Subject("Q-1001"), new Pseudonyms(Secret, "b").Subject("Q-1001"));
        Assert.NotEqual(names.Subject("Q-1001"), new Pseudonyms([.. Secret.Reverse()], "a").Subject("Q-1001"));
        Assert.NotEqual(names.Subject("7")[1..], names.Visit(7)[1..]);
    }

    // HMAC by its definition (RFC 2104): H((K ⊕ opad) ∥ H((K ⊕ ipad) ∥ text)), written out here with SHA-256 alone.
    [Fact]
    public void A_name_is_an_HMAC_under_a_key_of_secret_and_salt()
    {
        var key = Hmac(Secret, "pupilbridge research 1\nharbour");
        var expected = Convert.ToHexStringLower(Hmac(key, "subject\nQ-1001"))[..16];
        Assert.Equal("S" + expected, new Pseudonyms(Secret, "harbour").Subject("Q-1001"));
    }

    [Fact]
    public void A_short_secret_is_refused() =>
        Assert.Throws<ArgumentException>(() => new Pseudonyms(Secret.AsSpan(1), "a"));

    [Fact]
    public void Intervals_between_days_of_one_patient_stay_and_no_day_stays_where_it_was()
    {
        var names = new Pseudonyms(Secret, "a");
        var first = new DateOnly(2020, 1, 1);
        Gen.Select(Gen.Int[1, 9999], Gen.Int[0, 4000], Gen.Int[0, 4000])
            .Sample(
                (patient, a, b) =>
                {
                    var (dayA, dayB) = (first.AddDays(a), first.AddDays(b));
                    var (shiftedA, shiftedB) = (
                        names.Shifted($"Q-{patient}", dayA),
                        names.Shifted($"Q-{patient}", dayB)
                    );
                    Assert.Equal(dayB.DayNumber - dayA.DayNumber, shiftedB.DayNumber - shiftedA.DayNumber);
                    Assert.InRange(dayA.DayNumber - shiftedA.DayNumber, 1, Pseudonyms.MostDays);
                }
            );
    }

    [Fact]
    public void Patients_are_shifted_by_days_of_their_own()
    {
        var names = new Pseudonyms(Secret, "a");
        var day = new DateOnly(2026, 3, 2);
        var shifts = Enumerable
            .Range(1, 5_000)
            .Select(n => day.DayNumber - names.Shifted($"Q-{n}", day).DayNumber)
            .ToList();
        Assert.Equal(Pseudonyms.MostDays, shifts.Distinct().Count());
        // 5,000 draws over 364 days: 13.7 for each day on average, standard deviation of the mean 105/√5000 = 1.5 days.
        Assert.InRange(shifts.Average(), 182.5 - 6, 182.5 + 6);
    }

    [Theory]
    [InlineData(null, null)]
    [InlineData(0, "0-9")]
    [InlineData(45, "40-49")]
    [InlineData(89, "80-89")]
    [InlineData(90, "90+")]
    [InlineData(104, "90+")]
    public void Ages_stand_in_bands_and_all_over_89_in_one(int? years, string? band) =>
        Assert.Equal(band, AgeBands.Of(years));

    private static byte[] Hmac(byte[] key, string text)
    {
        byte[] Padded(byte with) =>
            [.. Enumerable.Range(0, 64).Select(i => (byte)((i < key.Length ? key[i] : 0) ^ with))];
        var inner = SHA256.HashData([.. Padded(0x36), .. Encoding.UTF8.GetBytes(text)]);
        return SHA256.HashData([.. Padded(0x5c), .. inner]);
    }
}
