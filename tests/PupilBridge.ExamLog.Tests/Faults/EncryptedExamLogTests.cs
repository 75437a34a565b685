using System.Text;
using PupilBridge.ExamLog.Tests.Support;
using PupilBridge.Keys;

namespace PupilBridge.ExamLog.Tests.Faults;

/// <summary>An exam log whose pages are encrypted: what it gives away, and when it is refused.</summary>
public sealed class EncryptedExamLogTests
{
    private static readonly ExamLogOptions Encrypted = Kind.Options(encrypt: true);

    [Fact]
    public void Nothing_of_a_document_stands_in_any_file()
    {
        using var plain = new DataFolder();
        using var encrypted = new DataFolder();
        var look = new ExamLogChanges { LookUps = [new StoredLookUp { List = "quay", Key = "Harbour Pilot" }] };
        foreach (var (folder, options) in new[] { (plain, Kind.Options(false)), (encrypted, Encrypted) })
        {
            using var store = ExamLogStore.Open(folder.Path, options);
            store.Apply(3, look);
            // Before the checkpoint it stands in the log, after it in the data file.
            Assert.Equal(folder == plain, Holds(folder, "Harbour Pilot"));
        }

        Assert.True(Holds(plain, "Harbour Pilot"));
        Assert.False(Holds(encrypted, "Harbour Pilot"));
    }

    [Fact]
    public void Without_its_master_key_it_is_refused_and_can_be_made_anew()
    {
        using var data = new DataFolder();
        ExamLogStore.Open(data.Path, Encrypted).Dispose();
        var others = new ExamLogOptions { Keys = KeyRing.Create(TimeProvider.System), Encrypt = true };
        foreach (var options in new[] { others, new ExamLogOptions() })
        {
            var broken = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path, options));
            Assert.Equal(ExamLogTrouble.NotAsWritten, broken.Trouble);
        }

        using (var rebuilder = ExamLogRebuilder.Begin(data.Path, others))
        {
            Assert.NotNull(rebuilder.Finish("its key was lost").OldFiles);
        }

        ExamLogStore.Open(data.Path, others).Dispose();
    }

    [Fact]
    public void One_in_the_clear_is_refused_once_it_is_to_be_encrypted_and_nothing_of_it_stays()
    {
        using var data = new DataFolder();
        using (var store = ExamLogStore.Open(data.Path))
        {
            store.Apply(
                3,
                new ExamLogChanges { LookUps = [new StoredLookUp { List = "quay", Key = "Harbour Pilot" }] }
            );
        }

        Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path, Encrypted));
        using (var rebuilder = ExamLogRebuilder.Begin(data.Path, Encrypted))
        {
            Assert.Null(rebuilder.Finish("to be encrypted").OldFiles);
        }

        Assert.False(Holds(data, "Harbour Pilot"));
        ExamLogStore.Open(data.Path, Encrypted).Dispose();
    }

    [Fact]
    public void Another_master_key_wraps_its_key_and_the_pages_stay()
    {
        using var data = new DataFolder();
        ExamLogStore.Open(data.Path, Encrypted).Dispose();
        var before = File.ReadAllBytes(data.DataFile);
        var both = Kind.Keys.With(MasterKey.Create(TimeProvider.System));
        var keys = new ExamLogKeys(data.Path);

        Assert.Equal(1, keys.WrapAnew(both));

        Assert.Equal(before, File.ReadAllBytes(data.DataFile));
        Assert.Equal([both.Current], keys.Uses().Keys);
        Assert.Equal(0, keys.WrapAnew(both));
        Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path, Encrypted));
        ExamLogStore.Open(data.Path, Encrypted with { Keys = both.Keeping(new HashSet<MasterKeyId>()) }).Dispose();
    }

    [Fact]
    public void A_page_opens_in_its_own_place_alone()
    {
        var form = new SealedPages(new byte[32]);
        var page = Enumerable.Range(0, EnginePages.PageBytes).Select(n => (byte)n).ToArray();
        var block = new byte[form.BlockBytes];
        var again = new byte[form.BlockBytes];
        var found = new byte[page.Length];
        form.Store(EngineFile.Data, 7, page, block);
        form.Store(EngineFile.Data, 7, page, again);

        form.Load(EngineFile.Data, 7, block, found);

        Assert.Equal(page, found);
        Assert.NotEqual(block[..12], again[..12]);
        Assert.Throws<InvalidDataException>(() => form.Load(EngineFile.Data, 8, block, found));
        Assert.Throws<InvalidDataException>(() => form.Load(EngineFile.Log, 7, block, found));
        for (var at = 0; at < block.Length; at += 97)
        {
            block[at] ^= 1;
            Assert.Throws<InvalidDataException>(() => form.Load(EngineFile.Data, 7, block, found));
            block[at] ^= 1;
        }
    }

    /// <summary>A killed process may leave half a page at the end of the engine's log; it was reported by nobody.</summary>
    [Fact]
    public void A_torn_page_at_the_end_of_the_log_is_cut_off_and_costs_nothing()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path, Encrypted);
        foreach (var (upTo, changes) in Samples.Stream(seed: 3, stretches: 20))
        {
            store.Apply(upTo, changes);
        }

        using var left = data.Copy();
        using (var log = new FileStream(left.LogFile, FileMode.Append))
        {
            log.Write(new byte[5000]);
        }

        using var again = ExamLogStore.Open(left.Path, Encrypted);
        Assert.Equal(store.LastApplied, again.LastApplied);
        Assert.Equal(store.Verify(), again.Verify());
    }

    private static bool Holds(DataFolder data, string text) =>
        Directory
            .EnumerateFiles(data.Path, "*", SearchOption.AllDirectories)
            .Any(path => Contains(path, Encoding.UTF8.GetBytes(text)));

    private static bool Contains(string path, byte[] text)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes.AsSpan().IndexOf(text) >= 0;
    }
}
