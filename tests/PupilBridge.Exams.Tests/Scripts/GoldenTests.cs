using System.Runtime.CompilerServices;
using PupilBridge.Constructed.Scripts;

namespace PupilBridge.Exams.Tests.Scripts;

/// <summary>
/// Whole exams as scripts beside what they must come to: <c>Golden/NAME.exam</c>, the script, a line <c>=====</c>, the
/// expected summary. Set <c>PUPILBRIDGE_REWRITE_GOLDEN=1</c> to write what the code says now, and read the difference.
/// </summary>
public class GoldenTests
{
    private const string Border = "=====";

    public static TheoryData<string> Names =>
        [.. Directory.GetFiles(Folder(), "*.exam").Select(path => Path.GetFileNameWithoutExtension(path)!).Order()];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_script_comes_to_what_stands_beside_it(string name)
    {
        var path = Path.Combine(Folder(), name + ".exam");
        var parts = File.ReadAllText(path).Split($"\n{Border}\n");
        var actual = Summary.Of(Script.Run(parts[0]));
        if (Environment.GetEnvironmentVariable("PUPILBRIDGE_REWRITE_GOLDEN") == "1")
            File.WriteAllText(path, $"{parts[0].TrimEnd()}\n{Border}\n{actual}\n");
        Assert.True(parts.Length == 2, $"{path} has no expected part after a line {Border}.");
        Assert.Equal(parts[1].Trim(), actual);
    }

    private static string Folder([CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "Golden");
}
