using System.Text;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Worker.Tests.Keeping.Index;

/// <summary>The manifest of the entry index under the master key.</summary>
public sealed class IndexSealTests : IDisposable
{
    private static readonly byte[] State = Encoding.UTF8.GetBytes("state-of-instruments");
    private readonly TempFolder folder = new();
    private readonly KeyRing ring = KeyRing.Create(TimeProvider.System);

    private string File => Assert.Single(Directory.GetFiles(Path.Combine(folder.Path, "entry-index"), "*.known"));

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_it_knows_of_instruments_stands_in_the_clear_only_where_nothing_is_encrypted(bool encrypt)
    {
        Save(new FileSeal(ring, encrypt));
        Assert.Equal(encrypt, System.IO.File.ReadAllBytes(File).AsSpan().IndexOf(State) < 0);
        Assert.Equal(State, Assert.Single(Load(ring)).Events.ToArray());
        Assert.Equal(encrypt ? 0 : 1, Load(null).Count);
        Assert.Equal(encrypt ? 0 : 1, Load(KeyRing.Create(TimeProvider.System)).Count);
    }

    [Fact]
    public void Another_master_key_opens_it_alone()
    {
        Save(new FileSeal(ring, encrypt: true));
        var keys = IndexFolder.KeysOf(RealDisk.Instance, folder.Path);
        var both = ring.With(MasterKey.Create(TimeProvider.System));
        Assert.Equal(ring.Current, keys.Uses().Single().Key);
        Assert.Equal(1, keys.WrapAnew(both));
        Assert.Equal(0, keys.WrapAnew(both));
        Assert.Equal((both.Current, 1), (keys.Uses().Single().Key, keys.Uses().Single().Value));
        Assert.Equal(State, Assert.Single(Load(both.Keeping(new HashSet<MasterKeyId>()))).Events.ToArray());
        Assert.Empty(Load(ring));
    }

    [Fact]
    public void One_that_no_key_opens_keeps_no_old_master_key_alive()
    {
        Save(new FileSeal(KeyRing.Create(TimeProvider.System), encrypt: true));
        var keys = IndexFolder.KeysOf(RealDisk.Instance, folder.Path);
        Assert.Equal(1, keys.WrapAnew(ring));
        Assert.Empty(keys.Uses());
    }

    [Fact]
    public void A_damaged_one_counts_for_nothing()
    {
        Save(new FileSeal(ring, encrypt: true));
        var whole = System.IO.File.ReadAllBytes(File);
        for (var at = 0; at < whole.Length; at++)
        {
            var bytes = (byte[])whole.Clone();
            bytes[at] ^= 0x10;
            System.IO.File.WriteAllBytes(File, bytes);
            Assert.Empty(Load(ring));
            Assert.Empty(IndexFolder.KeysOf(RealDisk.Instance, folder.Path).Uses());
            System.IO.File.WriteAllBytes(File, whole[..at]);
            Assert.Empty(Load(ring));
        }
    }

    private void Save(FileSeal seal)
    {
        var index = new IndexFolder(RealDisk.Instance, folder.Path, seal);
        index.Prepare();
        index.Save(new IndexManifest(default, [], State));
    }

    private List<IndexManifest> Load(KeyRing? keys) =>
        [.. new IndexFolder(RealDisk.Instance, folder.Path, new FileSeal(keys, encrypt: false)).Load()];
}
