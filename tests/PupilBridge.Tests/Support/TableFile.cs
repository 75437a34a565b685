using System.Text;

namespace PupilBridge.Tests.Support;

/// <summary>A table in a file of its own that is gone after the test.</summary>
internal sealed class TableFile : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public TableFile(params string[] lines)
        : this(Encoding.UTF8.GetBytes(string.Join('\n', lines) + (lines.Length > 0 ? "\n" : ""))) { }

    public TableFile(byte[] bytes)
    {
        Path = folder.At("table.csv");
        File.WriteAllBytes(Path, bytes);
    }

    public string Path { get; }

    public void Dispose() => folder.Dispose();
}
