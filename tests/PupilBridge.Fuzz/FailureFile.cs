using System.Security.Cryptography;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz;

/// <summary>Writes an input that failed into a file, and says how it is tried again and where it belongs once it is mended.</summary>
internal static class FailureFile
{
    /// <summary>Writes one.</summary>
    /// <returns>The exit code.</returns>
    public static int Write(TargetInfo target, Failure failure)
    {
        var name = $"{target.Name}-{Convert.ToHexStringLower(SHA256.HashData(failure.Input))[..12]}.input";
        var folder = Directory.CreateDirectory("fuzz-failures").FullName;
        var path = Path.Combine(folder, name);
        File.WriteAllBytes(path, failure.Input);
        System.Console.WriteLine(
            $"""
            FAILED: {failure.Reason}
            The input, {failure.Input.Length} bytes: {Readable.Of(failure.Input)}
            Try it again:   dotnet run -c Release --project tests/PupilBridge.Fuzz -- replay {target.Name} {path}
            Once mended, keep it as tests/PupilBridge.Fuzz.Tests/Failed/{target.Name}/WHAT-IT-BROKE.input, with a .txt beside it that says so.
            """
        );
        return 1;
    }
}
