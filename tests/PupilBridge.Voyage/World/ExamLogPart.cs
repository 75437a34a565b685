using PupilBridge.ExamLog;
using PupilBridge.SimulatedDisk;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Voyage.World;

/// <summary>Where the product's exam log lies: in a folder of its own that outlives the service's lives.</summary>
/// <param name="folder">The folder.</param>
/// <param name="disk">Says which run of the machine it is.</param>
/// <param name="time">The time of day.</param>
/// <param name="keys">The master keys under which it is encrypted; null where it is not.</param>
internal sealed class ExamLogPart(string folder, FaultyDisk disk, TimeProvider time, Protection? keys)
{
    /// <summary>The folder.</summary>
    public string Folder => folder;

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

    /// <summary>Closes it in order; what can be written is.</summary>
    public void Close(ExamLogKeeper keeper)
    {
        keeper.Finish();
        Rebuilds += keeper.Rebuilds;
    }

    /// <summary>
    /// Leaves it as a process does that dies: nothing says that it was closed in order. (What the engine itself does then is
    /// tried with real processes; see docs/exam-log.md.)
    /// </summary>
    public void Abandon(ExamLogKeeper keeper)
    {
        var mark = Path.Combine(folder, "examlog", "state");
        var before = File.Exists(mark) ? File.ReadAllBytes(mark) : null;
        keeper.Dispose();
        if (before is not null)
            File.WriteAllBytes(mark, before);
        Rebuilds += keeper.Rebuilds;
    }
}
