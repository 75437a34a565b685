using LiteDB;
using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Faults;

public class CutOffCheckpointTests
{
    /// <summary>
    /// A process that dies between the engine's checkpoint and the new check sums leaves pages that differ from their old sums. They are
    /// found sound at the next start, and must be so at every later one.
    /// </summary>
    [Fact]
    public void After_a_checkpoint_whose_check_sums_were_never_written_every_later_start_finds_the_pages_sound()
    {
        using var data = new DataFolder();
        var stream = Samples.Stream(seed: 31, stretches: 30).ToList();
        DieAfterCheckpoint(data, stream);

        using (var store = ExamLogStore.Open(data.Path))
        {
            // Little is written, so that the next checkpoint leaves most of those pages alone.
            store.Apply(
                stream[^1].UpTo + 1,
                new ExamLogChanges { LookUps = [new StoredLookUp { List = "a", Key = "b" }] }
            );
        }

        using var again = ExamLogStore.Open(data.Path);
        Assert.Equal(stream[^1].UpTo + 1, again.LastApplied);
        again.Verify();
    }

    private static void DieAfterCheckpoint(DataFolder data, List<(long UpTo, ExamLogChanges Changes)> stream)
    {
        using var store = ExamLogStore.Open(data.Path);
        stream.ForEach(stretch => store.Apply(stretch.UpTo, stretch.Changes));
        using var left = data.Copy();
        var sums = PageSums.Open(ExamLogFolder.InUse(left.Path));
        Assert.Throws<IOException>(() =>
            sums.Around(() =>
            {
                using (var database = new LiteDatabase($"Filename={left.DataFile}"))
                {
                    database.Checkpoint();
                }

                throw new IOException("the process dies here");
            })
        );
        Assert.False(File.Exists(left.LogFile) && new FileInfo(left.LogFile).Length > 0);
        store.Dispose();
        foreach (var file in Directory.EnumerateFiles(left.Path, "*", SearchOption.AllDirectories))
        {
            File.Copy(file, Path.Combine(data.Path, Path.GetRelativePath(left.Path, file)), overwrite: true);
        }
    }
}
