using System.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Offline;

namespace PupilBridge.Worker.Tests.Erasing;

/// <content>The patient, the exam and the order; where nothing of them may stand.</content>
public sealed partial class ErasureTests
{
    private const string Number = "Q-1001-ERASEME";
    private const string Name = "Harbour Pilot Eraseme";
    private const string Remark = "remark-eraseme";
    private const string OtherRemark = "this remark stays";
    private static readonly DateOnly Born = new(1971, 4, 23);

    private static PatientEntered Patient(EntryId id, string number, string name, DateOnly? born = null) =>
        new()
        {
            Id = id,
            Who = new("MK"),
            At = new(1_000),
            ProgramVersion = "test",
            Patient = new(number),
            Details = new() { Name = name, BirthDate = born ?? Born },
        };

    private static NoteEntered Note(EntryId id, ExamId exam, string text = Remark) =>
        new()
        {
            Id = id,
            Who = new("MK"),
            At = new(1_000),
            ProgramVersion = "test",
            Exam = exam,
            Text = text,
        };

    private static async Task<ExamId> ExamineAsync(BridgeBench bench, string number, string name)
    {
        await bench.Bridge.Keeper.RecordAsync(bench.Stamp(id => Patient(id, number, name)));
        var exam = await bench.ExamineAsync(number);
        await bench.Bridge.Keeper.RecordAsync(bench.Stamp(id => Note(id, exam)));
        await Eventually.Is(() => bench.Find(exam)?.Notes.Count == 1);
        return exam;
    }

    /// <summary>An exam that a person opened for the patient, with a remark, made ready.</summary>
    private static async Task<ExamId> OpenAsync(BridgeBench bench, string number, string name)
    {
        await bench.Bridge.Keeper.RecordAsync(bench.Stamp(id => Patient(id, number, name, new DateOnly(1988, 1, 2))));
        var receipt = await bench.Bridge.Keeper.RecordAsync(
            bench.Stamp(id => new ExamOpened
            {
                Id = id,
                Who = new("MK"),
                At = new(1_000),
                ProgramVersion = "test",
                Serial = new("T-100"),
                Patient = new(number),
            })
        );
        var exam = ExamId.OpenedBy(receipt.Sequence);
        await bench.Bridge.Keeper.RecordAsync(bench.Stamp(id => Note(id, exam, OtherRemark)));
        await bench.Bridge.Keeper.RecordAsync(
            bench.Stamp(id => new ExamMadeReady
            {
                Id = id,
                Who = new("MK"),
                At = new(1_000),
                ProgramVersion = "test",
                Exam = exam,
            })
        );
        await Eventually.Is(() => bench.Find(exam)?.Status == ExamStatus.ReadyForReview);
        return exam;
    }

    private static PatientErased Order(BridgeBench bench, ExamId exam)
    {
        var found = bench.Find(exam)!;
        return bench.Stamp(id => new PatientErased
        {
            Id = id,
            Who = new("AD"),
            At = new(2_000),
            ProgramVersion = "test",
            Patients = [.. bench.Bridge.SubjectKeys!.Find(found.Patient!.Value)],
            Texts = [.. found.SealedTexts.Select(text => text.Key)],
            Exams = [exam],
            Records = 0,
            OrderedBy = "DPO",
            Reason = "asked for",
        });
    }

    private static async Task EraseAsync(BridgeBench bench, ExamId exam)
    {
        var receipt = await bench.Bridge.Keeper.RecordAsync(Order(bench, exam));
        await Eventually.Is(() => bench.Bridge.Exams.Book.LastErasure == receipt.Sequence);
        await bench.Bridge.ExamLog.Renewed;
    }

    private static void NowhereIn(string folder)
    {
        foreach (
            var path in Directory
                .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                // The lock files hold no data, and one of them cannot be opened beside its holder.
                .Where(path => !Path.GetFileName(path).StartsWith("lock", StringComparison.Ordinal))
        )
        {
            var bytes = Encoding.Latin1.GetString(ReadShared(path));
            foreach (var secret in new[] { Number, Name, Remark })
            {
                Assert.False(
                    bytes.Contains(secret, StringComparison.OrdinalIgnoreCase),
                    $"'{secret}' stands in {path}"
                );
                var wide = Encoding.Latin1.GetString(Encoding.Unicode.GetBytes(secret));
                Assert.False(bytes.Contains(wide, StringComparison.OrdinalIgnoreCase), $"'{secret}' stands in {path}");
            }

            Assert.False(bytes.Contains("1971-04-23", StringComparison.Ordinal), $"the date of birth stands in {path}");
        }
    }

    private static byte[] ReadShared(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var all = new MemoryStream();
        file.CopyTo(all);
        return all.ToArray();
    }

    private static BridgeParts Parts(BridgeBench bench) => new() { Options = bench.Options, Disk = bench.Disk };

    private static void IsSound(BridgeBench bench)
    {
        var report = JournalVerifier.Verify(bench.Disk, new JournalFolder(bench.DataFolder));
        Assert.Empty(report.Problems);
        var check = ProjectionCheck.Offline(Parts(bench), CancellationToken.None);
        Assert.True(check.IsSame, check.ToString());
    }
}
