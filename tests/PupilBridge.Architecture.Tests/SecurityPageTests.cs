using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace PupilBridge.Architecture.Tests;

/// <summary>docs/security.md against the sources: a test that it names is there, and the list of packages is the one that is built.</summary>
public sealed partial class SecurityPageTests
{
    private const int FewestTests = 40;

    private static string Page { get; } = File.ReadAllText(Path.Combine(RepositoryRoot.Path, "docs", "security.md"));

    [Fact]
    public void Every_test_that_the_review_names_is_there()
    {
        var named = NamedTest()
            .Matches(Page)
            .Select(m => (Class: m.Groups[1].Value, Method: m.Groups[2].Value))
            .Distinct()
            .ToList();
        Assert.True(named.Count >= FewestTests, $"only {named.Count} tests are named");
        var sources = Directory
            .EnumerateFiles(Path.Combine(RepositoryRoot.Path, "tests"), "*Tests.cs", SearchOption.AllDirectories)
            .Where(path =>
                !path.Contains(
                    $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}",
                    StringComparison.Ordinal
                )
            )
            .ToLookup(path => Path.GetFileNameWithoutExtension(path), File.ReadAllText, StringComparer.Ordinal);
        Assert.DoesNotContain(
            named,
            test =>
                !sources[test.Class].Any(text => Regex.IsMatch(text, $@"public (async )?(void|Task) {test.Method}\("))
        );
    }

    [Fact]
    public void Every_row_of_the_review_has_a_test_or_says_why_there_is_none()
    {
        var review = Page[
            Page.IndexOf("## The review", StringComparison.Ordinal)..Page.IndexOf(
                "## Attacks",
                StringComparison.Ordinal
            )
        ];
        var rows = review.Split('\n').Where(line => line.StartsWith("| V", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(rows);
        string[] reasons = ["does not apply", "not met", "read: ", "see *"];
        Assert.DoesNotContain(
            rows,
            row =>
            {
                var last = row.Split('|')[3];
                return !NamedTest().IsMatch(last)
                    && !reasons.Any(reason => last.Contains(reason, StringComparison.Ordinal));
            }
        );
    }

    [Fact]
    public void Every_package_of_the_product_stands_in_the_list_with_its_version()
    {
        var inUse = XDocument
            .Load(Path.Combine(RepositoryRoot.Path, "Directory.Packages.props"))
            .Descendants("ItemGroup")
            .Single(group => (string?)group.Attribute("Label") == "product")
            .Elements("PackageVersion")
            .Select(package => $"{(string?)package.Attribute("Include")} {(string?)package.Attribute("Version")}");
        var listed = Package()
            .Matches(Page[Page.IndexOf("## Dependencies", StringComparison.Ordinal)..])
            .Select(m => $"{m.Groups[1].Value} {m.Groups[2].Value}");
        Assert.Equal(inUse.Order(StringComparer.Ordinal), listed.Order(StringComparer.Ordinal));
    }

    [GeneratedRegex("`([A-Za-z0-9]+Tests)[.]([A-Za-z_0-9]+)`")]
    private static partial Regex NamedTest();

    [GeneratedRegex(@"^\| ([A-Za-z0-9.-]+) \| ([0-9.]+) \| [A-Za-z]", RegexOptions.Multiline)]
    private static partial Regex Package();
}
