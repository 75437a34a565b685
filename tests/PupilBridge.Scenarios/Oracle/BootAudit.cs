using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Oracle;

namespace PupilBridge.Scenarios.Oracle;

/// <summary>The audit of one boot of one instrument.</summary>
internal sealed class BootAudit(BootNumber boot, IReadOnlyList<TruthEvent> happened, IReadOnlyList<TruthLoss> losses)
{
    private readonly List<string> problems = [];
    private long next = 1;
    private long recorded;
    private long inGap;
    private long doubled;
    private long wrong;
    private long givenUp;

    public AuditResult Run(IReadOnlyList<JournalEntry> entries, bool mayBePending)
    {
        if (entries.Count == 0)
            return new AuditResult(
                happened.Count,
                0,
                0,
                mayBePending ? 0 : happened.Count,
                mayBePending ? happened.Count : 0,
                []
            );
        foreach (var entry in entries)
        {
            if (entry is InstrumentReported reported)
                Take(reported);
            else if (entry is EventsLost lost)
                Take(lost);
        }

        var rest = happened.Count - (next - 1);
        if (rest > 0 && !mayBePending)
            problems.Add($"boot {boot}: {rest} events after {next - 1} are neither recorded nor told of");
        return new AuditResult(happened.Count, recorded, inGap, 0, mayBePending ? Math.Max(0, rest) : 0, problems)
        {
            Doubled = doubled,
            False = wrong,
            GivenUp = givenUp,
        };
    }

    private void Take(InstrumentReported reported)
    {
        var (rawBoot, sequence, tick, text) = JournalAudit.Take(reported.RawLine);
        if (sequence < next)
        {
            doubled++;
            problems.Add($"boot {boot}: event {sequence} stands in the journal again");
            return;
        }

        if (sequence > next)
            problems.Add($"boot {boot}: event {sequence} follows {next - 1}; nothing tells of what lies between");
        next = sequence + 1;
        var isTrue =
            rawBoot == boot.ToString()
            && reported.Sequence == sequence
            && sequence <= happened.Count
            && happened[(int)sequence - 1] is var truth
            && truth.Text == text
            && truth.Tick.Milliseconds == tick;
        if (isTrue)
        {
            recorded++;
            return;
        }

        wrong++;
        problems.Add($"boot {boot}: event {sequence} stands in the journal as '{text}', which is not what happened");
    }

    private void Take(EventsLost lost)
    {
        var last = lost.Last ?? Math.Max(happened.Count, lost.First - 1);
        if (lost.First < next && lost.Last is not null)
            problems.Add($"boot {boot}: a gap from {lost.First} covers what is recorded up to {next - 1}");
        for (var sequence = Math.Max(lost.First, next); sequence <= last; sequence++)
        {
            inGap++;
            if (!losses.Any(l => l.First <= sequence && sequence <= l.Last))
                givenUp++;
        }

        next = Math.Max(next, last + 1);
    }
}
