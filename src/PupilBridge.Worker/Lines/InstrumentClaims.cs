using System.Collections.Concurrent;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// Which line has which instrument: a serial number is live on one line at a time. What the journal has on disk is told to
/// the line that has the instrument now, whichever line brought it.
/// </summary>
internal sealed class InstrumentClaims : IRecordedListener
{
    private readonly ConcurrentDictionary<SerialNumber, PortLine> holders = [];
    private readonly ConcurrentDictionary<SerialNumber, TickTimes> ticks = [];
    private readonly List<PortLine> told = [];

    /// <summary>Told when a serial number has become free. Called on any thread.</summary>
    public event Action? Released;

    /// <summary>Claims an instrument for a line.</summary>
    /// <returns>Null if the line has it now; else the line that has it.</returns>
    public PortLine? Claim(SerialNumber serial, PortLine line)
    {
        var holder = holders.GetOrAdd(serial, line);
        return ReferenceEquals(holder, line) ? null : holder;
    }

    /// <summary>The line that has an instrument; null for none.</summary>
    public PortLine? Find(SerialNumber serial) => holders.GetValueOrDefault(serial);

    /// <summary>What is known of an instrument's ticks, for the line that has it.</summary>
    public TickTimes Ticks(SerialNumber serial) => ticks.GetOrAdd(serial, static _ => new TickTimes());

    /// <summary>Takes all claims of a line back.</summary>
    public void Release(PortLine line)
    {
        foreach (var claim in holders.Where(claim => ReferenceEquals(claim.Value, line)))
        {
            if (holders.TryRemove(claim))
                Released?.Invoke();
        }
    }

    /// <inheritdoc/>
    public void OnRecorded(SequencedEntry entry)
    {
        if (EntrySerial.Of(entry.Entry) is not { } serial || Find(serial) is not { } line)
            return;
        line.OnRecorded(entry.Entry);
        if (!told.Contains(line))
            told.Add(line);
    }

    /// <inheritdoc/>
    public void OnCaughtUp()
    {
        foreach (var line in told)
            line.OnCaughtUp();
        told.Clear();
    }
}
