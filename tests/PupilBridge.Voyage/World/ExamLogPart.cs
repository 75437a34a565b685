using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.SimulatedDisk;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Voyage.World;

/// <summary>
/// The product's exam log in a folder of its own: opened, built anew from the journal when it cannot be trusted, written when
/// the world says so, and left as a death of the process leaves it.
/// </summary>
/// <param name="dataFolder">Where it lies.</param>
/// <param name="disk">Says which run of the machine it is.</param>
/// <param name="time">The time of day.</param>
/// <param name="keys">The master keys under which it is encrypted; null where it is not.</param>
internal sealed class ExamLogPart(string dataFolder, FaultyDisk disk, TimeProvider time, Protection? keys)
{
    private ExamLogStore? store;

    public ExamLogStore Store => store ?? throw new InvalidOperationException("The exam log is closed.");

    /// <summary>How often it was built anew.</summary>
    public int Rebuilds { get; private set; }

    /// <summary>How it is opened.</summary>
    public ExamLogOptions Options =>
        new()
        {
            SystemRun = disk.BootId.ToString(),
            Time = time,
            Keys = keys?.Ring,
            Encrypt = keys is not null,
        };

    /// <summary>Opens it, as the service does at a start.</summary>
    /// <param name="journal">All entries of the journal, should it have to be built anew.</param>
    public void Open(Func<IEnumerable<SequencedEntry>> journal)
    {
        try
        {
            store = ExamLogStore.Open(dataFolder, Options);
            _ = ExamLogKeeper.BookOf(store);
        }
        catch (ExamLogBrokenException e)
        {
            Close();
            Rebuilds++;
            using (var rebuilder = ExamLogRebuilder.Begin(dataFolder, Options))
            {
                ExamLogKeeper.Fill(rebuilder.Store, journal(), CancellationToken.None);
                rebuilder.Finish(e.Message);
            }

            store = ExamLogStore.Open(dataFolder, Options);
        }
    }

    public void Write(ExamTracker tracker)
    {
        if (tracker.Unwritten.UpTo > Store.LastApplied)
            ExamLogKeeper.Write(Store, tracker);
    }

    /// <summary>Closes it in order.</summary>
    public void Close()
    {
        store?.Dispose();
        store = null;
    }

    /// <summary>
    /// Leaves it as a process does that dies: nothing says that it was closed in order. (What the engine itself does then is
    /// tried with real processes; see docs/exam-log.md.)
    /// </summary>
    public void Abandon()
    {
        if (store is not { } open)
            return;
        var mark = Path.Combine(open.Folder, "state");
        var before = File.ReadAllBytes(mark);
        Close();
        File.WriteAllBytes(mark, before);
    }
}
