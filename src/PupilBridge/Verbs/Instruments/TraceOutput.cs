using PupilBridge.CommandLine;
using PupilBridge.Conformance.Lines;
using PupilBridge.Conformance.Tracing;

namespace PupilBridge.Verbs.Instruments;

/// <summary>Shows lines with their meaning as they come, records them as they crossed, and counts them.</summary>
/// <param name="call">The invocation.</param>
/// <param name="record">Where they are recorded; null for nowhere.</param>
internal sealed class TraceOutput(Call call, TextWriter? record)
{
    private readonly TraceReader reader = new();
    private readonly SortedDictionary<string, int> counts = new(StringComparer.Ordinal);
    private int dropped;

    /// <summary>Takes the next line.</summary>
    /// <param name="line">The line.</param>
    public void Take(WireLine line)
    {
        // On file first: what was shown is also recorded.
        record?.Write(Recording.LineOf(line) + "\n");
        record?.Flush();
        var traced = reader.Read(line);
        counts[traced.Type] = counts.GetValueOrDefault(traced.Type) + 1;
        dropped += traced.IsDropped ? 1 : 0;
        foreach (var text in TraceText.Of(traced).Split('\n'))
        {
            call.Print(text);
        }

        call.Terminal.Out.Flush();
    }

    /// <summary>Says how many lines came.</summary>
    public void Sum() => call.Remark(TraceText.Sum(counts, dropped));
}
