using System.Globalization;

namespace PupilBridge.Conformance.Tracing;

/// <summary>A traced line as a person reads it: seconds, direction, the bytes; below it the meaning.</summary>
public static class TraceText
{
    /// <summary>The text of one line.</summary>
    /// <param name="traced">The line.</param>
    /// <returns>Two lines of text: the line as in a recording, and what it means.</returns>
    public static string Of(TracedLine traced)
    {
        ArgumentNullException.ThrowIfNull(traced);
        var mark = traced.IsDropped ? "-- " : "";
        var type = traced.Type.Length > 0 ? traced.Type + ": " : "";
        return $"{Recording.LineOf(traced.Line)}\n             {mark}{type}{traced.Words}";
    }

    /// <summary>What came in all, by type, in one line.</summary>
    /// <param name="counts">How often each type came; the empty type is what had none.</param>
    /// <param name="dropped">How many were dropped.</param>
    /// <returns>A sentence.</returns>
    public static string Sum(IReadOnlyDictionary<string, int> counts, int dropped)
    {
        ArgumentNullException.ThrowIfNull(counts);
        var byType = counts
            .Where(c => c.Key.Length > 0)
            .OrderBy(c => c.Key, StringComparer.Ordinal)
            .Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Key} {c.Value}"));
        var all = counts.Values.Sum();
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{all} lines ({(all == 0 ? "none" : string.Join(", ", byType))}), {dropped} of them dropped."
        );
    }
}
