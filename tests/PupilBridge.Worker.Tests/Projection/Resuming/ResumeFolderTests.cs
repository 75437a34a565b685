using System.Text;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.Protection;
using PupilBridge.Worker.Tests.Keeping;

namespace PupilBridge.Worker.Tests.Projection.Resuming;

/// <summary>The points of live exams under the master key.</summary>
public sealed class ResumeFolderTests : IDisposable
{
    private const string Number = "Q-1001-UNREADABLE";
    private readonly TempFolder folder = new();
    private readonly KeyRing ring = KeyRing.Create(TimeProvider.System);

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_point_is_encrypted_where_the_journal_is_and_opens_under_its_keys_alone(bool encrypt)
    {
        Points(new FileSeal(ring, encrypt)).Save(Point());
        Assert.Equal(1, Assert.Single(Load(ring)).Position.Sequence);
        Assert.Equal(encrypt ? 0 : 1, Load(null).Count);
        Assert.Equal(encrypt ? 0 : 1, Load(KeyRing.Create(TimeProvider.System)).Count);
        if (encrypt)
            Assert.DoesNotContain(
                Number,
                Encoding.Latin1.GetString(File.ReadAllBytes(PointFile)),
                StringComparison.Ordinal
            );
    }

    [Fact]
    public void Another_master_key_opens_it_alone_once_it_was_wrapped_anew()
    {
        Points(new FileSeal(ring, encrypt: true)).Save(Point());
        var keys = ResumeFolder.KeysOf(RealDisk.Instance, folder.Path);
        var both = ring.With(MasterKey.Create(TimeProvider.System));
        Assert.Equal(ring.Current, keys.Uses().Single().Key);
        Assert.Equal(1, keys.WrapAnew(both));
        Assert.Equal(both.Current, keys.Uses().Single().Key);
        Assert.Equal(Number, Assert.Single(Load(both)).Book.OpenExams.Values.Single().Patient!.Value.Value);
        Assert.Empty(Load(ring));
    }

    private string PointFile => Directory.GetFiles(Path.Combine(folder.Path, "resume")).Single();

    private ResumeFolder Points(FileSeal seal) => new(RealDisk.Instance, folder.Path, seal);

    private List<ResumePoint> Load(KeyRing? keys) => [.. Points(new FileSeal(keys, encrypt: false)).Load()];

    private static ResumePoint Point()
    {
        var opened = new ExamOpened
        {
            Id = new EntryId(1),
            Who = new("MK"),
            At = new(1_000_000),
            ProgramVersion = "test",
            Serial = new("T-100"),
            Patient = new PatientId(Number),
        };
        var (book, _) = ExamReducer.Apply(ExamBook.Empty, new SequencedEntry(new(1), opened), _ => null);
        return new ResumePoint(new(1, ChainHash.Of("one"u8)), book, []);
    }
}
