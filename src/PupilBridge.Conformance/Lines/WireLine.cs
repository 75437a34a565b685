using System.Text;

namespace PupilBridge.Conformance.Lines;

/// <summary>Who sent a line.</summary>
public enum LineWay
{
    /// <summary>The instrument.</summary>
    FromInstrument = 1,

    /// <summary>The host.</summary>
    FromHost = 2,
}

/// <summary>Bytes as they crossed the line: a line without its LF, or a piece of a run that has no LF yet.</summary>
/// <param name="At">When its last byte crossed, counted from when the port was opened.</param>
/// <param name="Way">Who sent it.</param>
/// <param name="Bytes">The bytes, a CR included, the LF not.</param>
/// <param name="IsEnded">Whether an LF came after them.</param>
public sealed record WireLine(TimeSpan At, LineWay Way, ReadOnlyMemory<byte> Bytes, bool IsEnded)
{
    /// <summary>The bytes as characters, one for one.</summary>
    public string Text => Encoding.Latin1.GetString(Bytes.Span);
}
