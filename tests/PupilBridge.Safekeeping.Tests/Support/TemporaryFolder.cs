namespace PupilBridge.Safekeeping.Tests.Support;

/// <summary>A fresh folder that is gone after the test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pupilbridge-safe-");

    public string Path => folder.FullName;

    public string At(params string[] parts) => System.IO.Path.Combine([Path, .. parts]);

    public void Dispose() => folder.Delete(recursive: true);
}
