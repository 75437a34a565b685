namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>A data folder that is gone after the test.</summary>
internal sealed class DataFolder : IDisposable
{
    public DataFolder() => Path = Directory.CreateTempSubdirectory("examlog-test-").FullName;

    public string Path { get; }

    public string DataFile => System.IO.Path.Combine(Path, "examlog", "exams.db");

    public string LogFile => System.IO.Path.Combine(Path, "examlog", "exams-log.db");

    public string SumsFile => System.IO.Path.Combine(Path, "examlog", "exams.sums");

    public string MarkFile => System.IO.Path.Combine(Path, "examlog", "state");

    /// <summary>A copy of the folder as it lies there, as a process that died would leave it.</summary>
    public DataFolder Copy()
    {
        var copy = new DataFolder();
        foreach (var file in Directory.EnumerateFiles(Path, "*", SearchOption.AllDirectories))
        {
            var target = System.IO.Path.Combine(copy.Path, System.IO.Path.GetRelativePath(Path, file));
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }

        return copy;
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
