namespace PupilBridge.Worker.Tests.Keeping;

/// <summary>A folder of its own that goes away with the test.</summary>
public sealed class TempFolder : IDisposable
{
    public TempFolder() => Directory.CreateDirectory(Path);

    public string Path { get; } =
        System.IO.Path.Combine(System.IO.Path.GetTempPath(), "pupilbridge-tests", Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        try
        {
            Directory.Delete(Path, recursive: true);
        }
        catch (IOException)
        {
            // A folder that is left behind harms nobody.
        }
    }
}
