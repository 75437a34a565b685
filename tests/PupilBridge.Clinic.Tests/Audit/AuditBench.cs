using System.Text;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.Audit;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.Tests.Audit;

/// <summary>A data folder with keys of patients and an audit stream on a real disk, encrypted or not.</summary>
internal sealed class AuditBench : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pb-audit-");

    public AuditBench(bool encrypt)
    {
        Masters = encrypt ? KeyRing.Create(Time) : null;
        Keys = SubjectKeyStore.Create(RealDisk.Instance, folder.FullName, Masters, sealedFrom: 1);
        Open();
    }

    public FakeTimeProvider Time { get; } = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));

    public List<string> Remarks { get; } = [];

    public KeyRing? Masters { get; set; }

    public SubjectKeyStore Keys { get; set; }

    public AuditLog Log { get; private set; } = null!;

    public string DataFolder => folder.FullName;

    public AuditParts Parts =>
        new()
        {
            House = new JournalFolder(folder.FullName) { Keys = Masters },
            Time = Time,
            ProgramVersion = "0.0-test",
            Encrypt = Masters is not null,
            SubjectKeys = () => Keys,
            Remark = Remarks.Add,
            PreallocateBytes = 0,
        };

    public bool IsSound => JournalVerifier.Verify(RealDisk.Instance, Parts.Folder).IsSound;

    public void Open() => Log = new AuditLog(Parts);

    /// <summary>A service that stops and starts.</summary>
    public void Restart()
    {
        Log.Dispose();
        Keys.Dispose();
        Keys = SubjectKeyStore.Open(RealDisk.Instance, DataFolder, Masters);
        Open();
    }

    /// <summary>Makes the keys of patients, as the journal does when it seals an entry about them.</summary>
    public void Enter(params string[] numbers)
    {
        foreach (var number in numbers)
        {
            Keys.Prepare(
                new PatientEntered
                {
                    Id = EntryId.From(Guid.NewGuid()),
                    Who = new("MK"),
                    At = new(1_000),
                    ProgramVersion = "test",
                    Patient = new(number),
                    Details = null,
                }
            );
        }
    }

    /// <summary>Destroys a patient's keys, as an erasure does.</summary>
    /// <returns>What stands for the number from then on.</returns>
    public string Erase(string number)
    {
        var slots = Keys.Find(new PatientId(number));
        Keys.Destroy(slots, new JournalSequence(7));
        return Exams.Entries.Sealing.SealedNumbers.Erased(Assert.Single(slots)).Value;
    }

    public Task NoteAsync(string? path, params string[] patients) =>
        Log.NoteAsync(
            new AuditReader("MK", AuditWay.Page, path).Note(AuditWhat.Record, Time.GetUtcNow()) with
            {
                Patients = patients,
            }
        );

    public async Task<IReadOnlyList<AuditNote>> ListAsync(string? patient = null) =>
        [
            .. (await Log.ListAsync(new AuditSearch { Patient = patient }, CancellationToken.None)).Lines.Select(line =>
                line.Note
            ),
        ];

    /// <summary>The files of the data folder in which a text stands.</summary>
    public IEnumerable<string> FilesWith(string text) =>
        Directory
            .EnumerateFiles(DataFolder, "*", SearchOption.AllDirectories)
            .Where(path => !Path.GetFileName(path).StartsWith("lock", StringComparison.Ordinal))
            .Where(path => Bytes(path).AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0);

    public void Dispose()
    {
        Log.Dispose();
        Keys.Dispose();
        folder.Delete(recursive: true);
    }

    private static byte[] Bytes(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var all = new MemoryStream();
        file.CopyTo(all);
        return all.ToArray();
    }
}
