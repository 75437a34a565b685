namespace PupilBridge.Architecture.Tests;

/// <summary>What stands at the top of the tree: nothing but what the house plan names.</summary>
public sealed class TopLevelTests
{
    private static readonly string[] Named =
    [
        "DEVELOPERS.md",
        "Directory.Build.props",
        "Directory.Packages.props",
        "PupilBridge.sln",
        "README.md",
        "docs",
        "simulator",
        "src",
        "tests",
    ];

    [Fact]
    public void Only_named_things_and_dot_files_stand_at_the_top()
    {
        var top = Directory
            .EnumerateFileSystemEntries(RepositoryRoot.Path)
            .Select(path => System.IO.Path.GetFileName(path))
            .Where(name => !name.StartsWith('.'))
            .Order(StringComparer.Ordinal);
        Assert.Equal(Named, top);
    }

    [Fact]
    public void Every_project_is_in_the_solution()
    {
        var solution = File.ReadAllText(System.IO.Path.Combine(RepositoryRoot.Path, "PupilBridge.sln"))
            .Replace('\\', '/');
        var missing = Directory
            .EnumerateFiles(RepositoryRoot.Path, "*.csproj", SearchOption.AllDirectories)
            .Select(path => System.IO.Path.GetRelativePath(RepositoryRoot.Path, path).Replace('\\', '/'))
            .Where(path => !solution.Contains(path, StringComparison.Ordinal));
        Assert.Empty(missing);
    }
}
