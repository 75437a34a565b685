using System.Reflection;

namespace PupilBridge.Architecture.Tests;

/// <summary>The project's own assemblies, as they were built beside this test.</summary>
internal static class Assemblies
{
    public const string Executable = "pupilbridge";

    public static IReadOnlyList<Assembly> Ours { get; } =
    [
        .. Directory
            .EnumerateFiles(AppContext.BaseDirectory, "*.dll")
            .Where(IsOurs)
            .OrderBy(path => path, StringComparer.Ordinal)
            .Select(path => Assembly.Load(new AssemblyName(Path.GetFileNameWithoutExtension(path)))),
    ];

    public static IEnumerable<string> ReferencesOf(Assembly assembly) =>
        assembly.GetReferencedAssemblies().Select(name => name.Name!).Order(StringComparer.Ordinal);

    private static bool IsOurs(string path)
    {
        var name = Path.GetFileNameWithoutExtension(path);
        return (name.StartsWith("PupilBridge.", StringComparison.Ordinal) || name == Executable)
            && !name.EndsWith(".Tests", StringComparison.Ordinal);
    }
}
