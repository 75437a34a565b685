using System.Globalization;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Oracle;

namespace PupilBridge.Scenarios.Oracle;

/// <summary>
/// Holds a journal against what instruments really did. It reads the raw lines with string operations of its own: neither
/// the product's codec nor its link is asked whether they were right.
/// </summary>
public static class JournalAudit
{
    /// <summary>Compares the journal's entries of one instrument with its truth.</summary>
    /// <param name="truth">What happened.</param>
    /// <param name="serial">Under which serial number it is journalled.</param>
    /// <param name="journal">All entries of the journal, in order.</param>
    /// <param name="settled">Whether the instrument has had time to send all again; if not, an end may be pending.</param>
    public static AuditResult Compare(
        TruthList truth,
        SerialNumber serial,
        IReadOnlyList<JournalEntry> journal,
        bool settled = true
    )
    {
        var result = AuditResult.None;
        var boots = truth.Boots;
        var events = truth.Events.ToLookup(e => e.Boot);
        var losses = truth.Losses.ToLookup(l => l.Boot);
        var entries = journal.Where(e => BootOf(e, serial) is not null).ToLookup(e => BootOf(e, serial)!.Value);
        foreach (var boot in boots)
        {
            var isPresent = boot == boots[^1];
            result += new BootAudit(boot, [.. events[boot]], [.. losses[boot]]).Run(
                [.. entries[boot]],
                mayBePending: isPresent && !settled
            );
        }

        var known = boots.ToHashSet();
        var strangers = journal.OfType<InstrumentReported>().Count(e => e.Serial == serial && !known.Contains(e.Boot));
        return strangers == 0
            ? result
            : result with
            {
                False = result.False + strangers,
                Problems = [.. result.Problems, $"{strangers} events of boots of {serial} that never were"],
            };
    }

    /// <summary>The boot of an instrument that an entry is about; null for another instrument, or none.</summary>
    private static BootNumber? BootOf(JournalEntry entry, SerialNumber serial) =>
        entry switch
        {
            InstrumentReported e when e.Serial == serial => e.Boot,
            EventsLost e when e.Serial == serial => e.Boot,
            InstrumentMet e when e.Serial == serial => e.Boot,
            _ => null,
        };

    /// <summary>Kind and fields of a raw event line, and its tick.</summary>
    internal static (string Boot, long Sequence, long Tick, string Text) Take(string rawLine)
    {
        var body = rawLine[..rawLine.LastIndexOf('*')];
        var fields = body.Split(',', 5);
        return (
            fields[1],
            long.Parse(fields[2], CultureInfo.InvariantCulture),
            long.Parse(fields[3], CultureInfo.InvariantCulture),
            fields[4]
        );
    }
}
