using PupilBridge.Scenarios.Oracle;
using PupilBridge.Voyage.Model;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Runs;

/// <summary>What one voyage came to.</summary>
/// <param name="Plan">What the seed decided.</param>
/// <param name="Problems">Everything that must not be.</param>
/// <param name="Events">What became of the instruments' events.</param>
/// <param name="Counts">What was counted.</param>
/// <param name="Journal">The journal's files.</param>
/// <param name="Digest">Stands for all that the journal says.</param>
internal sealed record VoyageResult(
    VoyagePlan Plan,
    IReadOnlyList<string> Problems,
    AuditResult Events,
    RunCounts Counts,
    IReadOnlyDictionary<string, byte[]> Journal,
    string Digest
);

/// <summary>One voyage from its seed to its audit.</summary>
internal static class VoyageRun
{
    /// <summary>The command that does one again.</summary>
    public static string Replay(long seed) =>
        $"dotnet run -c Release --project tests/PupilBridge.Voyage -- replay {seed}";

    /// <summary>Runs it.</summary>
    /// <param name="plan">What is to happen.</param>
    /// <param name="tamper">Spoils something on purpose before the audit; null for nothing. For tests of the audit itself.</param>
    /// <param name="prepare">Sets something up on purpose before it sails; null for nothing.</param>
    public static VoyageResult Run(
        VoyagePlan plan,
        Action<VoyageWorld>? tamper = null,
        Action<VoyageWorld>? prepare = null
    )
    {
        var folder = NewFolder();
        var log = Path.Combine(folder, "log");
        using var world = new VoyageWorld(plan, log);
        try
        {
            prepare?.Invoke(world);
            world.Run();
            tamper?.Invoke(world);
            var audit = new VoyageAudit(world);
            audit.Run(log, Path.Combine(folder, "beside"));
            return new VoyageResult(plan, audit.Problems, audit.Events, world.Counts, Files(world), audit.Digest);
        }
        finally
        {
            world.Dispose();
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>What the seed alone decides: segments, and the keys of patients.</summary>
    private static Dictionary<string, byte[]> Files(VoyageWorld world)
    {
        var files = RottenPlaces.Files(world.Disk, world.Folder);
        foreach (var path in world.Disk.Paths.Where(path => path.EndsWith(".pbk", StringComparison.Ordinal)))
            files[path] = world.Disk.Content(path);
        return files;
    }

    // What a disk does to the exam log's files is tried elsewhere; here it would only take time.
    private static string NewFolder()
    {
        const string inMemory = "/dev/shm";
        const long enough = 2L << 30;
        return Directory.Exists(inMemory) && new DriveInfo(inMemory).AvailableFreeSpace >= enough
            ? Directory.CreateDirectory(Path.Combine(inMemory, $"voyage-{Guid.NewGuid():N}")).FullName
            : Directory.CreateTempSubdirectory("voyage").FullName;
    }
}
