using System.Collections.Concurrent;

namespace PupilBridge.Tests.Support;

/// <summary>Standard input at which a test types a line whenever it wants to.</summary>
internal sealed class BlockingLines : TextReader
{
    private readonly BlockingCollection<string> lines = [];

    public void Type(string line) => lines.Add(line);

    public override string? ReadLine() => lines.TryTake(out var line, Timeout.Infinite) ? line : null;

    protected override void Dispose(bool disposing)
    {
        lines.CompleteAdding();
        base.Dispose(disposing);
    }
}
