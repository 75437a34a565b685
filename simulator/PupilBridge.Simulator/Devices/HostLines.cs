using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Simulator.Devices;

/// <summary>Makes lines out of what a host sent. Faulty lines are dropped without a trace, as an instrument does.</summary>
internal sealed class HostLines
{
    private readonly List<byte> waiting = [];
    private bool resyncing;

    public void Take(ReadOnlySpan<byte> bytes, Action<HostLine> take)
    {
        waiting.AddRange(bytes);
        byte[] all = [.. waiting];
        var at = 0;
        while (true)
        {
            var frame = LineFramer.Next(all.AsSpan(at), resyncing);
            resyncing = frame.Resyncing;
            if (frame.Kind == FrameKind.NeedMore)
            {
                break;
            }

            var isLine = frame.Kind == FrameKind.Line;
            if (isLine && HostLineDecoder.TryDecode(all.AsSpan(at, frame.Length), out var line, out _))
            {
                take(line);
            }

            at += frame.Consumed;
        }

        waiting.RemoveRange(0, Math.Min(at, waiting.Count));
    }

    /// <summary>The cable went out or the current failed: half a line is lost.</summary>
    public void Forget()
    {
        waiting.Clear();
        resyncing = false;
    }
}
