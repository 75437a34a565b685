namespace PupilBridge.Worker.Keeping;

/// <summary>Too many entries of one source wait for the disk; this one was not taken.</summary>
/// <param name="source">The source's name.</param>
public sealed class SourceFullException(string source)
    : InvalidOperationException(
        $"The disk does not take what {source} has to record: too many entries wait already. This one is not recorded; "
            + "look at the state of the disk and try again."
    );
