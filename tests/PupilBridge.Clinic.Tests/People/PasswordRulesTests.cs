using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class PasswordRulesTests
{
    [Theory]
    [InlineData("three quiet cranes")]
    [InlineData("aaaabbbb")]
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
