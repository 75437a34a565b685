namespace PupilBridge.Journal;

// The same journal without a thread, for whoever decides alone what happens between two commits.
public sealed partial class JournalThread
{
    private bool _ended;

    /// <summary>
    /// A journal without a thread of its own: whoever drives it calls <see cref="Step"/>. A simulation so decides what happens
    /// between two commits; everything else is as with the thread.
    /// </summary>
    /// <param name="writer">The writer, which belongs to it from now on.</param>
    /// <param name="limits">Its limits; how long to wait before a retry is for the driver to decide.</param>
    public static JournalThread Stepped(JournalWriter writer, JournalThreadOptions? limits = null) =>
        new(writer, limits, ofItsOwn: false);

    /// <summary>
    /// One turn of a journal without a thread: what gathered is committed once, and those who wait are told. Where the commit
    /// fails, the entries stay and the next step tries them again.
    /// </summary>
    /// <returns>How the commit ended; null if there was nothing to do.</returns>
    /// <exception cref="InvalidOperationException">It has a thread.</exception>
    public JournalCommit? Step()
    {
        if (_thread is not null)
            throw new InvalidOperationException("This journal has a thread, which takes its steps.");
        if (_ended || (_committing.Count == 0 && !TryTakeGathered()))
            return null;
        JournalCommit outcome = CommitOnce();
        if (outcome.IsDurable)
            Complete();
        return outcome;
    }

    private void EndStepped()
    {
        if (_ended)
            return;
        while (!_abandoning && Step() is { IsDurable: true })
        {
            // What was given so far is recorded, as by the thread when it is told to stop.
        }
        _ended = true;
        End();
    }
}
