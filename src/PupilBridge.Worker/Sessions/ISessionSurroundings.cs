using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Sessions;

/// <summary>What a session asks of the world around it. All calls return at once.</summary>
internal interface ISessionSurroundings
{
    /// <summary>How many of this port's entries wait for the disk.</summary>
    int Waiting { get; }

    /// <summary>Sends one line to the instrument.</summary>
    /// <param name="line">The whole line with its end; it is used up when this returns.</param>
    void Send(ReadOnlySpan<byte> line);

    /// <summary>Gives an entry to the journal; a second copy of an event is passed over there.</summary>
    /// <param name="entry">The entry.</param>
    void Submit(JournalEntry entry);

    /// <summary>What the journal holds of a boot; null for nothing.</summary>
    EventPosition? Find(SerialNumber serial, BootNumber boot);

    /// <summary>Earlier boots of an instrument whose end the journal does not tell.</summary>
    IReadOnlyList<OpenBoot> OpenBoots(SerialNumber serial, BootNumber present);

    /// <summary>Claims a serial number for this port.</summary>
    /// <param name="serial">The serial number.</param>
    /// <returns>Null if it is this port's now; else the name of the port on which it is live.</returns>
    string? Claim(SerialNumber serial);

    /// <summary>
    /// What is known of an instrument's ticks. It outlives lines, so that after a line was lost and came back the first
    /// events need not wait for a heartbeat.
    /// </summary>
    TickTimes Ticks(SerialNumber serial);

    /// <summary>Shows the instrument as it is just now.</summary>
    void Show(LiveInstrument instrument);

    /// <summary>Shows the port as it is just now.</summary>
    void Show(PortPhase phase, string message);

    /// <summary>A command came to its end.</summary>
    void CommandEnded(uint number, PupilBridge.Exams.Entries.CommandOutcome outcome, string reason);

    /// <summary>The line cannot be used any more: close the port and begin anew.</summary>
    void EndLine(PortPhase phase, string message);
}
