using System.Text;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Safekeeping.Restoring;

namespace PupilBridge.Safekeeping.Tests.Support;

/// <summary>A data folder with a journal of small segments, a destination for its backups, and a second machine to restore to.</summary>
internal sealed class House : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly JournalWriter writer;
    private int entries;

    public House()
    {
        Folder = new JournalFolder(folder.At("clinic"));
        writer = JournalWriter.Open(
            RealDisk.Instance,
            new JournalOptions
            {
                Folder = Folder,
                MaxSegmentBytes = 4096,
                PreallocateBytes = 8192,
            }
        );
        File.WriteAllText(At("access.json"), "{\"people\":[]}");
        File.WriteAllText(At("host-id"), "0000002a\n");
        File.WriteAllText(At("research.key"), "secret of research");
        Directory.CreateDirectory(At("keys"));
        File.WriteAllText(At("keys", "master.txt"), "secret of the journal");
        Directory.CreateDirectory(At("examlog"));
        File.WriteAllText(At("examlog", "exam.db"), "made from the journal");
    }

    public JournalFolder Folder { get; }

    public BackupPlace Place => new(folder.At("safe"));

    public string Second => folder.At("second");

    public JournalPosition Head => writer.Durable;

    public string At(params string[] parts) => Path.Combine([Folder.DataFolder, .. parts]);

    /// <summary>Records entries, each in a commit of its own.</summary>
    public void Record(int count)
    {
        for (var i = 0; i < count; i++)
        {
            writer.Append(Encoding.ASCII.GetBytes($"entry {++entries} " + new string('x', 200)));
            Assert.True(writer.Commit().IsDurable);
        }
    }

    public BackupMade BackUp(Envelope? envelope = null, CancellationToken cancel = default) =>
        BackupMaker.Make(
            new BackupSource
            {
                Folder = Folder,
                RunningHead = writer.Durable,
                Program = "test",
            },
            Place,
            envelope ?? Words(),
            cancel
        );

    public BackupChecked Check(int? number = null, Envelope? envelope = null) =>
        BackupCheck.Run(Place, number, envelope ?? Words(), CancellationToken.None);

    public Restored Restore(int? number = null, Envelope? envelope = null) =>
        BackupRestore.Run(
            new RestoreWish
            {
                Place = Place,
                Number = number,
                Envelope = envelope ?? Words(),
                DataFolder = Second,
            },
            CancellationToken.None
        );

    /// <summary>A pass phrase that is not strengthened as long as in life.</summary>
    public static PassPhraseEnvelope Words(string passPhrase = "käse quay rope tide") =>
        new(passPhrase) { CodedIterations = 0 };

    /// <summary>Whether two folders of segments hold the same records; zeros written ahead do not count.</summary>
    public static string[] Records(JournalFolder folder)
    {
        using var reader = JournalReader.Settled(RealDisk.Instance, folder);
        string[] read =
        [
            .. reader.ReadAll().Select(r => $"{r.Sequence} {r.Class} {Convert.ToHexString(r.Payload.Span)}"),
        ];
        Assert.Empty(reader.Problems);
        return read;
    }

    public void Dispose()
    {
        writer.Dispose();
        folder.Dispose();
    }
}
