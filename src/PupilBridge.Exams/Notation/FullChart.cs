using System.Collections.Immutable;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Records;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>
/// The longest chart text: the block, then what the criteria found and what they cannot tell, each once, the cautions that go with it,
/// and the timing of the stimuli. A criterion that was not met is not listed: it excludes nothing. Those not examined are counted, so
/// that silence is never taken for a finding.
/// </summary>
public static class FullChart
{
    /// <summary>
    /// The lines, out of what stands in the record: its block, the sentences and cautions of its findings, its runs. So the text of a
    /// signed exam says what was signed, and nothing of it is stored twice.
    /// </summary>
    /// <param name="record">The record; one of format 1 has no findings, and says so.</param>
    /// <returns>The lines; the same caution ends them.</returns>
    public static ImmutableArray<string> Of(SignedRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return Of(record.Chart.Block, record.Findings, record.Runs);
    }

    private static ImmutableArray<string> Of(
        ValueList<string> block,
        ValueList<RecordFinding> findings,
        ValueList<RecordRun> runs
    ) =>
        [
            .. block.Where(line => line != ChartText.Caution),
            .. Sentences("Found", findings, "met"),
            .. Sentences("Cannot be told", findings, "cannot-tell"),
            Left(findings),
            .. Cautions(findings),
            .. runs.Count == 0 ? ["Timing: no stimulus."] : runs.Select(Timing),
            ChartText.Caution,
        ];

    /// <summary>The timing of one run in words.</summary>
    /// <param name="run">The run.</param>
    /// <returns>One line.</returns>
    public static string Timing(RecordRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        List<string> parts =
        [
            $"{Words.Of(Eye.Right)} {run.Right}, {Words.Of(Eye.Left)} {run.Left} complete stimuli",
            $"on for {Range(run.ShortestDwellMilliseconds, run.LongestDwellMilliseconds)} (wanted {run.WantedDwellMilliseconds} ms)",
        ];
        if (run.LongestGapMilliseconds is > 0)
            parts.Add($"apart {Range(run.ShortestGapMilliseconds, run.LongestGapMilliseconds)}");
        if (run.NotComplete > 0)
            parts.Add($"{run.NotComplete} not complete");
        if (!run.HasReachedCount)
            parts.Add("fewer than wanted");
        if (run.WasInterrupted)
            parts.Add("interrupted");
        parts.Add(run.IsTimely ? "timely" : "not surely timely");
        return $"Timing, {run.Block} run {run.Run}: {string.Join("; ", parts)}.";
    }

    private static IEnumerable<string> Sentences(string head, ValueList<RecordFinding> findings, string verdict)
    {
        foreach (var sentence in findings.Where(f => f.Verdict == verdict).Select(f => f.Sentence).Distinct())
            yield return $"{head}: {sentence}";
    }

    private static string Left(ValueList<RecordFinding> findings)
    {
        if (findings.Count == 0)
            return "Criteria: none was asked.";
        var left = findings.Where(f => f.Verdict == "not-examined").Count;
        return left == 0
            ? $"Criteria: {findings.Count} answers, none for want of an examination."
            : $"Criteria: {findings.Count} answers, {left} of them that it was {Words.NotExamined}.";
    }

    private static IEnumerable<string> Cautions(ValueList<RecordFinding> findings) =>
        findings
            .SelectMany(f => f.Cautions)
            .Where(caution => caution != FindingText.Closing)
            .Distinct()
            .Select(caution => $"Caution: {caution}");

    private static string Range(long? least, long? most) =>
        (least, most) switch
        {
            (null, _) or (_, null) => "an unknown time",
            var (from, to) when from == to => $"{from} ms",
            var (from, to) => $"{from} to {to} ms",
        };
}
