using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Faults;

/// <summary>
/// Damage at random places. What is asked is not that the engine notices it, which it does not, but that nothing wrong is ever
/// taken for right: reading everything gives the same content or says that it is broken.
/// </summary>
public class DamagedFileTests
{
    private const int Rounds = 40;
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);

    public static TheoryData<string, string, bool> Ways =>
        new()
        {
            { "data", "flip one bit", false },
            { "data", "zero a piece", false },
            { "data", "cut the end", false },
            { "sums", "flip one bit", false },
            { "log", "flip one bit", false },
            { "log", "zero a piece", false },
            { "log", "zero a page", false },
            { "data", "flip one bit", true },
            { "data", "zero a piece", true },
            { "data", "cut the end", true },
            { "log", "flip one bit", true },
            { "log", "zero a page", true },
            { "key", "flip one bit", true },
            { "key", "cut the end", true },
        };

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task Damage_is_harmless_or_told_and_a_rebuild_brings_the_same_content(
        string which,
        string way,
        bool encrypt
    )
    {
        using var whole = new DataFolder();
        var stream = Samples.Stream(seed: 21, stretches: 60).ToList();
        var expected = Write(whole, stream, checkpoint: which != "log", encrypt);
        var dice = new Random(which.Length * way.Length);
        var told = 0;
        // The encrypted form differs below the checks that both share, so fewer rounds do.
        for (var round = 0; round < (encrypt ? Rounds / 4 : Rounds); round++)
        {
            using var damaged = whole.Copy();
            Damage(FileOf(damaged, which), way, dice);

            var found = await Task.Run(() => ReadAll(damaged, encrypt)).WaitAsync(Deadline);

            if (found is null)
            {
                told++;
                Assert.Equal(expected, Rebuild(damaged, stream, encrypt));
            }
            else
            {
                Assert.True(expected == found, $"round {round}: {found} instead of {expected}");
            }
        }

        // A check that never finds anything would prove nothing.
        Assert.InRange(told, 1, Rounds);
    }

    /// <summary>The tail of the log is where a killed process stops writing: what is cut off was not applied, no more.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_cut_log_is_an_earlier_state_from_which_a_replay_goes_on(bool encrypt)
    {
        using var whole = new DataFolder();
        var stream = Samples.Stream(seed: 22, stretches: 60).ToList();
        var expected = Write(whole, stream, checkpoint: false, encrypt);
        var dice = new Random(6);
        for (var round = 0; round < Rounds; round++)
        {
            using var damaged = whole.Copy();
            Damage(damaged.LogFile, "cut the end", dice);

            var found = await Task.Run(() => ReplayOrTell(damaged, stream, encrypt)).WaitAsync(Deadline);

            Assert.Equal(expected, found ?? Rebuild(damaged, stream, encrypt));
        }
    }

    [Fact]
    public void A_data_file_that_is_gone_while_its_log_is_there_is_told()
    {
        using var whole = new DataFolder();
        Write(whole, Samples.Stream(seed: 1, stretches: 5).ToList(), checkpoint: false);
        using var damaged = whole.Copy();
        File.Delete(damaged.DataFile);

        var broken = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(damaged.Path));

        Assert.Contains("no data file", broken.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Garbage_in_place_of_the_data_file_is_told_with_what_to_do()
    {
        using var data = new DataFolder();
        ExamLogStore.Open(data.Path).Dispose();
        File.WriteAllBytes(data.DataFile, new byte[8192 * 4]);

        var broken = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path));

        Assert.Equal(ExamLogTrouble.Damaged, broken.Trouble);
        Assert.Contains("journal rebuild", broken.Message, StringComparison.Ordinal);
        Assert.Contains(data.DataFile, broken.Message, StringComparison.Ordinal);
    }

    /// <summary>A start does not read the whole file: what is damaged in it is told by whoever reads it first.</summary>
    [Fact]
    public void A_damaged_page_does_not_keep_the_exam_log_from_opening_and_is_told_when_it_is_read()
    {
        using var data = new DataFolder();
        Write(data, Samples.Stream(seed: 23, stretches: 60).ToList(), checkpoint: true);
        using (var file = new FileStream(data.DataFile, FileMode.Open, FileAccess.ReadWrite))
        {
            file.Position = file.Length - 1;
            file.WriteByte(0xA5);
        }

        using var store = ExamLogStore.Open(data.Path);
        var broken = Assert.Throws<ExamLogBrokenException>(store.Verify);

        Assert.Contains("is not as it was written", broken.Message, StringComparison.Ordinal);
        Assert.True(store.IsBroken);
    }

    private static ContentDigest Write(
        DataFolder data,
        List<(long UpTo, ExamLogChanges Changes)> stream,
        bool checkpoint,
        bool encrypt = false
    )
    {
        // Not disposed before the copies are made when the log is wanted: a close would empty it.
        using var store = ExamLogStore.Open(data.Path, Kind.Options(encrypt));
        foreach (var (upTo, changes) in stream)
        {
            store.Apply(upTo, changes);
        }

        var digest = store.Verify();
        if (!checkpoint)
        {
            KeepLog(data, store);
        }

        return digest;
    }

    /// <summary>Puts back the files as they were before the store was closed in good order.</summary>
    private static void KeepLog(DataFolder data, ExamLogStore store)
    {
        using var left = data.Copy();
        store.Dispose();
        foreach (var file in Directory.EnumerateFiles(left.Path, "*", SearchOption.AllDirectories))
        {
            File.Copy(file, Path.Combine(data.Path, Path.GetRelativePath(left.Path, file)), overwrite: true);
        }
    }

    private static string FileOf(DataFolder data, string which) =>
        which switch
        {
            "data" => data.DataFile,
            "log" => data.LogFile,
            "key" => Path.Combine(Path.GetDirectoryName(data.DataFile)!, "exams.key"),
            _ => data.SumsFile,
        };

    private static void Damage(string path, string way, Random dice)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        switch (way)
        {
            case "flip one bit":
                file.Position = dice.NextInt64(file.Length);
                var value = file.ReadByte();
                file.Position--;
                file.WriteByte((byte)(value ^ (1 << dice.Next(8))));
                break;
            case "zero a piece":
                file.Position = dice.NextInt64(file.Length - 512);
                file.Write(new byte[512]);
                break;
            case "zero a page":
                file.Position = dice.NextInt64(file.Length / 8192) * 8192;
                file.Write(new byte[8192]);
                break;
            default:
                file.SetLength(dice.NextInt64(file.Length));
                break;
        }
    }

    private static ContentDigest? ReadAll(DataFolder data, bool encrypt)
    {
        try
        {
            using var store = ExamLogStore.Open(data.Path, Kind.Options(encrypt));
            return store.Verify();
        }
        catch (ExamLogBrokenException)
        {
            return null;
        }
    }

    private static ContentDigest? ReplayOrTell(
        DataFolder data,
        List<(long UpTo, ExamLogChanges Changes)> stream,
        bool encrypt
    )
    {
        try
        {
            using var store = ExamLogStore.Open(data.Path, Kind.Options(encrypt));
            stream.ForEach(stretch => store.Apply(stretch.UpTo, stretch.Changes));
            return store.Verify();
        }
        catch (ExamLogBrokenException)
        {
            return null;
        }
    }

    private static ContentDigest Rebuild(
        DataFolder data,
        List<(long UpTo, ExamLogChanges Changes)> stream,
        bool encrypt
    )
    {
        using var rebuilder = ExamLogRebuilder.Begin(data.Path, Kind.Options(encrypt));
        stream.ForEach(stretch => rebuilder.Store.Apply(stretch.UpTo, stretch.Changes));
        var rebuilt = rebuilder.Finish("damaged in a test");
        Assert.NotNull(rebuilt.OldFiles);
        using var store = ExamLogStore.Open(data.Path, Kind.Options(encrypt));
        Assert.Equal(rebuilt.Digest, store.Verify());
        return rebuilt.Digest;
    }
}
