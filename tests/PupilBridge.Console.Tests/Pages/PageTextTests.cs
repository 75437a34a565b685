using System.Text.RegularExpressions;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Tests.Pages;

public sealed partial class PageTextTests
{
    [Fact]
    public void Every_word_that_a_page_names_is_there()
    {
        var named = Sources()
            .SelectMany(source => Named().Matches(source))
            .Select(match => match.Groups["key"].Value)
            .ToHashSet();
        Assert.NotEmpty(named);
        Assert.Empty(named.Except(PageText.Words.Keys).Except(BenchText.Words.Keys));
    }

    [Fact]
    public void Every_finding_that_can_be_searched_for_has_its_words() =>
        Assert.Subset(
            new HashSet<string>(PageText.Words.Keys),
            ExamSearch.FindingWords.Select(finding => $"Finding.{finding}").ToHashSet()
        );

    [Fact]
    public void A_word_that_is_not_known_is_shown_as_it_is() => Assert.Equal("newer", PageText.Of("Status", "newer"));

    [Theory]
    [InlineData("PageText")]
    [InlineData("BenchText")]
    public void All_texts_take_their_values_in_a_longer_language_too(string file)
    {
        var resources = new System.Resources.ResourceManager(
            $"PupilBridge.Console.Text.{file}",
            typeof(PageText).Assembly
        );
        var text = new HouseText(resources, HouseLanguage.Pseudo);
        var english = new HouseText(resources, HouseLanguage.English);
        Assert.All(
            text.Keys,
            key =>
            {
                var said = text.Get(key, "first", "second", "third", "fourth", "fifth");
                Assert.StartsWith("⟦", said, StringComparison.Ordinal);
                Assert.Equal(
                    english[key].Contains("{0}", StringComparison.Ordinal),
                    said.Contains("first", StringComparison.Ordinal)
                );
            }
        );
    }

    [Theory]
    [InlineData("direct OD 2.5", "Direct response, OD (right): 2.5")]
    [InlineData("consensual lit OS could-not-see", "Consensual response, light in OS (left): could not see")]
    [InlineData(
        "swing long worse OD pupil OS",
        "Swinging, long dwell: worse in OD (right); only the pupil of OS (left) was watched"
    )]
    [InlineData("slow-to-dilate OS", "Slow to dilate, OS (left): yes")]
    [InlineData("something new", "something new")]
    public void A_judgement_is_said_in_words(string judgement, string words) =>
        Assert.Equal(words, JudgementWords.Of(judgement).Whole);

    /// <summary>The pages' own sources, which lie beside these tests in the tree.</summary>
    private static IEnumerable<string> Sources([System.Runtime.CompilerServices.CallerFilePath] string here = "")
    {
        var root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../../src/PupilBridge.Console"));
        return new[] { "Pages", "Layout", "Plots", "Text" }
            .SelectMany(folder =>
                Directory.EnumerateFiles(Path.Combine(root, folder), "*", SearchOption.AllDirectories)
            )
            .Where(file =>
                file.EndsWith(".cs", StringComparison.Ordinal) || file.EndsWith(".razor", StringComparison.Ordinal)
            )
            .Select(File.ReadAllText);
    }

    [GeneratedRegex(
        "(?<=\\b[TB](?:\\.Get)?[\\[(]|Words(?:\\.Get)?[\\[(]|\\? |: )\"(?<key>[A-Z][A-Za-z]+\\.[A-Za-z0-9.]+)\""
    )]
    private static partial Regex Named();
}
