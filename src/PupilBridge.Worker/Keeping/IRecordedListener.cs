using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping;

/// <summary>
/// Is told what became of entries, on the journal's own thread, in the journal's order. It must be quick and wait for
/// nothing: the next sync begins when it returns.
/// </summary>
internal interface IRecordedListener
{
    /// <summary>An entry is on disk.</summary>
    /// <param name="entry">The entry with its place.</param>
    void OnRecorded(SequencedEntry entry);

    /// <summary>Nothing more is known to be on disk just now: time to acknowledge what is.</summary>
    void OnCaughtUp();
}
