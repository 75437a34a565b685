using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class PasswordRulesTests
{
    [Theory]
    [InlineData("three quiet cranes")]
    [InlineData("aaaabbbbquay")]
    [InlineData("correct crane battery pilot")]
    [InlineData("        x")]
    [InlineData("über den Kai gehen")]
    [InlineData("mk likes the tide")]
    [InlineData("kowalska walks along the quay at dawn")]
    public void Long_ones_are_welcome_whatever_they_are_made_of(string password) =>
        Assert.Null(PasswordRules.Fault(password, "MK"));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("seven77")]
    [InlineData("password")]
    [InlineData("aaaabbbb")]
    [InlineData("trustno1")]
    [InlineData("1QAZ2wsx")]
    [InlineData("starwars")]
    [InlineData("corvette")]
    [InlineData("hospital1")]
    [InlineData("PassWord123")]
    [InlineData(" 12345678 ")]
    [InlineData("zzzzzzzzzz")]
    [InlineData("kowalska")]
    [InlineData("Kowalska")]
    [InlineData("kowalska1")]
    [InlineData("kowalskakowalska")]
    [InlineData("k.o.w.a.l.s.k.a")]
    public void Short_common_and_the_name_are_refused_with_words(string? password) =>
        Assert.NotEmpty(PasswordRules.Fault(password, "Kowalska") ?? "");

    /// <summary>
    /// OWASP ASVS 5.0, 6.2.4: at least the top 3,000 that the other rules would let through. In one list of three thousand, so that none of them
    /// is passed over.
    /// </summary>
    [Fact]
    public void The_three_thousand_commonest_that_are_long_enough_are_refused_however_they_are_written()
    {
        var commonest = CommonPasswords.Published().Take(3_000).ToList();
        Assert.Equal(3_000, commonest.Distinct(StringComparer.OrdinalIgnoreCase).Count());
        Assert.Equal(["password", "12345678", "123456789", "baseball", "football"], commonest.Take(5));
        Assert.All(
            commonest,
            password =>
            {
                Assert.NotNull(PasswordRules.Fault(password, "MK"));
                Assert.NotNull(PasswordRules.Fault(password.ToUpperInvariant(), "MK"));
            }
        );
    }

    [Fact]
    public void A_name_of_two_letters_may_stand_inside_a_password_but_not_be_all_of_it()
    {
        Assert.Null(PasswordRules.Fault("smoke over mks ropes", "MK"));
        Assert.NotNull(PasswordRules.Fault("mkmkmkmk", "MK"));
    }

    [Fact]
    public void A_long_sentence_fits_and_a_whole_page_does_not()
    {
        Assert.Null(PasswordRules.Fault(string.Concat(Enumerable.Repeat("ab", 128)), "MK"));
        Assert.NotNull(PasswordRules.Fault(string.Concat(Enumerable.Repeat("ab", 129)), "MK"));
    }

    [Fact]
    public void The_hasher_salts_knows_its_own_and_asks_for_a_new_hash_when_rounds_rose()
    {
        var (few, more) = (new PasswordCheck(1), new PasswordCheck(2));
        var hash = few.Hash("three quiet cranes");
        Assert.NotEqual(hash, few.Hash("three quiet cranes"));
        Assert.Equal((true, false), few.Check(hash, "three quiet cranes"));
        Assert.Equal((true, true), more.Check(hash, "three quiet cranes"));
        Assert.Equal((false, false), few.Check(hash, "three quiet crane"));
        Assert.Equal((false, false), few.Check(null, "three quiet cranes"));
        Assert.Equal((false, false), few.Check("no base64 at all!", "three quiet cranes"));
    }
}
