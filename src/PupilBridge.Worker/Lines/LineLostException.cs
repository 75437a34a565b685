using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Lines;

/// <summary>A line came to its end and is to be tried again.</summary>
/// <param name="phase">What to show while waiting.</param>
/// <param name="message">What happened, for a person.</param>
/// <param name="inner">What the port threw, if it did.</param>
internal sealed class LineLostException(PortPhase phase, string message, Exception? inner = null)
    : IOException(message, inner)
{
    /// <summary>What to show while waiting for the next try.</summary>
    public PortPhase Phase { get; } = phase;
}
