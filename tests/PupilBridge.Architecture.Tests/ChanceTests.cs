using System.Text.RegularExpressions;

namespace PupilBridge.Architecture.Tests;

/// <summary>
/// Keys come from the operating system. A simulation may hand in random bytes of its own where keys of patients are made; nothing of
/// the product may, nor make a generator of its own.
/// </summary>
public sealed partial class ChanceTests
{
    private static IEnumerable<(string Path, string Text)> Sources() =>
        Directory
            .EnumerateFiles(Path.Combine(RepositoryRoot.Path, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(path =>
                !path.Contains(
                    $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}",
                    StringComparison.Ordinal
                )
            )
            .Select(path => (path, File.ReadAllText(path)));

    [Fact]
    public void Nothing_of_the_product_is_a_generator_of_random_bytes() =>
        Assert.DoesNotContain(Sources(), source => Generator().IsMatch(source.Text));

    [Fact]
    public void Nothing_of_the_product_hands_in_random_bytes_for_the_keys_of_patients()
    {
        Assert.DoesNotContain(
            Sources(),
            source => source.Text.Contains("SubjectKeyChance =", StringComparison.Ordinal)
        );
        Assert.Contains(
            Sources(),
            source =>
                source.Text.Contains(
                    "SubjectKeyChance { get; init; } = RandomNumberGenerator.Create();",
                    StringComparison.Ordinal
                )
        );
    }

    [GeneratedRegex(@"class\s+\w+(\([^)]*\))?\s*:\s*RandomNumberGenerator\b")]
    private static partial Regex Generator();
}
