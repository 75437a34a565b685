using System.Resources;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.Tests.Text;

public sealed class HouseTextTests
{
    private const string File = "PupilBridge.Clinic.Text.House";
    private static readonly ResourceManager Resources = new(File, typeof(HouseText).Assembly);
    private static readonly HouseText English = new(Resources, HouseLanguage.English);
    private static readonly HouseText Pseudo = new(Resources, HouseLanguage.Pseudo);

    [Fact]
    public void A_text_takes_its_values()
    {
        Assert.Equal(
            "'xx' is no language of this program; give one of: en, qps-ploc.",
            English.Get("Language.Unknown", "xx", "en, qps-ploc")
        );
        Assert.Equal("'{0}' is no language of this program; give one of: {1}.", English["Language.Unknown"]);
    }

    [Fact]
    public void A_missing_text_shows_its_key_and_throws_nothing()
    {
        Assert.Equal("[No.Such]", English.Get("No.Such", 1));
        Assert.DoesNotContain("No.Such", English.Keys);
        Assert.Contains("Language.Unknown", English.Keys);
    }

    [Fact]
    public void The_pseudo_language_marks_every_letter_lengthens_every_text_and_leaves_values_alone()
    {
        var english = English.Get("Language.Unknown", "Q-1001", 4.5);
        var pseudo = Pseudo.Get("Language.Unknown", "Q-1001", 4.5);

        Assert.StartsWith("⟦", pseudo, StringComparison.Ordinal);
        Assert.EndsWith("⟧", pseudo, StringComparison.Ordinal);
        Assert.Contains("'Q-1001'", pseudo, StringComparison.Ordinal);
        Assert.Contains(" 4.5", pseudo, StringComparison.Ordinal);
        Assert.DoesNotContain(
            pseudo.Replace("Q-1001", "", StringComparison.Ordinal),
            letter => char.IsAsciiLetter(letter)
        );
        var letters = English["Language.Unknown"].Count(char.IsAsciiLetter);
        Assert.True(pseudo.Length >= english.Length + (0.4 * letters), $"{pseudo} is too short for {english}");
    }

    [Theory]
    [InlineData("OD", "⟦ÖĐĐ⟧")]
    [InlineData("{0:0.0} mm", "⟦{0:0.0} ɱɱɱ⟧")]
    [InlineData("", "⟦⟧")]
    [InlineData("{{x}}", "⟦{{ẋẋ}}⟧")]
    public void Places_for_values_and_braces_stay(string english, string pseudo) =>
        Assert.Equal(pseudo, PseudoText.Of(english));

    [Fact]
    public void The_letters_of_the_pseudo_language_are_all_different()
    {
        const string alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
        var marked = alphabet.Select(letter => PseudoText.Of($"{letter}")[1]).ToList();

        Assert.Equal(alphabet.Length, marked.Distinct().Count());
        Assert.Empty(marked.Intersect(alphabet));
    }

    [Fact]
    public void A_language_that_there_is_not_is_refused_with_those_that_there_are()
    {
        var problem = Assert.Throws<EntryProblemException>(() => new HouseText(Resources, "tlh"));

        Assert.Contains("'tlh'", problem.Message, StringComparison.Ordinal);
        Assert.Contains("en, qps-ploc", problem.Message, StringComparison.Ordinal);
        Assert.Equal(HouseLanguage.Pseudo, HouseLanguage.Checked("QPS-PLOC"));
    }
}
