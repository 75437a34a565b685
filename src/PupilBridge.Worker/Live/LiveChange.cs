using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Live;

/// <summary>One thing that changed. Each holds the whole new state of what it is about.</summary>
public abstract record LiveChange
{
    private LiveChange() { }

    /// <summary>A port changed.</summary>
    /// <param name="Port">The port as it is now.</param>
    public sealed record PortChanged(PortStatus Port) : LiveChange;

    /// <summary>A port is no longer there, and nobody named it.</summary>
    /// <param name="Port">Its name.</param>
    public sealed record PortGone(string Port) : LiveChange;

    /// <summary>An instrument changed.</summary>
    /// <param name="Instrument">The instrument as it is now.</param>
    public sealed record InstrumentChanged(LiveInstrument Instrument) : LiveChange;

    /// <summary>An exam is new or different, by an entry that is on disk.</summary>
    /// <param name="Exam">The exam as it is now.</param>
    /// <param name="IsNew">Whether it was opened by that entry.</param>
    /// <param name="IsOver">Whether it takes no more events.</param>
    public sealed record ExamChanged(Exam Exam, bool IsNew, bool IsOver) : LiveChange;

    /// <summary>A bench run is new or different, by an entry that is on disk.</summary>
    /// <param name="Run">The run as it is now.</param>
    /// <param name="IsNew">Whether it was begun by that entry.</param>
    /// <param name="IsOver">Whether it takes no more events.</param>
    public sealed record RunChanged(Exam Run, bool IsNew, bool IsOver) : LiveChange;

    /// <summary>An entry is on disk.</summary>
    /// <param name="Entry">The entry with its place.</param>
    public sealed record EntryRecorded(SequencedEntry Entry) : LiveChange;

    /// <summary>Recording became impossible, or possible again.</summary>
    /// <param name="Trouble">Why nothing can be recorded, for a person; null when all is well.</param>
    public sealed record TroubleChanged(string? Trouble) : LiveChange;
}

/// <summary>Everything live, at one moment.</summary>
/// <param name="Ports">The ports, by name.</param>
/// <param name="Instruments">The instruments met since the service started, by serial number.</param>
public sealed record LiveSnapshot(IReadOnlyList<PortStatus> Ports, IReadOnlyList<LiveInstrument> Instruments);
