namespace PupilBridge.Journal.Tests;

/// <summary>A data folder on the real disk that goes away with the test.</summary>
public sealed class TempJournal : IDisposable
{
    public JournalFolder Folder { get; } =
        new(Path.Combine(Path.GetTempPath(), "pupilbridge-journal-" + Guid.NewGuid().ToString("N")));

    public JournalOptions Options => new() { Folder = Folder, PreallocateBytes = 4096 };

    public JournalWriter Open() => JournalWriter.Open(RealDisk.Instance, Options);

    public VerifyReport Verify() => JournalVerifier.Verify(RealDisk.Instance, Folder);

    public void Dispose()
    {
        if (Directory.Exists(Folder.DataFolder))
            Directory.Delete(Folder.DataFolder, recursive: true);
    }
}
