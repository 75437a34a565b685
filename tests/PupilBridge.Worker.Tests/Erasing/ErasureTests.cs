using System.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Tests.Erasing;

/// <summary>A patient erased in a running bridge: what is gone, and what stands.</summary>
public sealed class ErasureTests
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

    [Fact]
    public async Task An_erased_patient_stands_nowhere_in_the_data_folder_and_journal_and_exam_log_are_sound()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var other = await OpenAsync(bench, "Q-1002", "Crane Driver Stays");
        var before = bench.Find(exam)!;
        Assert.Equal(Number, before.Patient!.Value.Value);

        await EraseAsync(bench, exam);

        var after = bench.Find(exam)!;
        Assert.True(SealedNumbers.IsErased(after.Patient!.Value));
        Assert.Null(after.Notes[0].Text);
        Assert.Equal("DPO", after.Erasure!.OrderedBy);
        Assert.Equal(before.Captures, after.Captures);
        Assert.Equal(before.Judgements, after.Judgements);
        Assert.Equal(OtherRemark, bench.Find(other)!.Notes[0].Text);
        Assert.Null(bench.Bridge.ExamLog.Read(log => log.FindPatient(Number)));
        Assert.Equal("Crane Driver Stays", bench.Bridge.ExamLog.Read(log => log.FindPatient("Q-1002"))!.Name);
        NowhereIn(bench.DataFolder);

        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        IsSound(bench);
        NowhereIn(bench.DataFolder);
    }

    [Fact]
    public async Task What_is_recorded_after_an_erasure_is_written_and_the_same_number_is_another_patient()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        await EraseAsync(bench, exam);
        var again = await OpenAsync(bench, Number, "Someone Else");
        Assert.Equal(Number, bench.Find(again)!.Patient!.Value.Value);
        Assert.True(SealedNumbers.IsErased(bench.Find(exam)!.Patient!.Value));
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        IsSound(bench);
    }

    [Fact]
    public async Task Nothing_is_entered_about_an_erased_exam_any_more_and_what_is_sent_again_is_known()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var note = bench.Find(exam)!.Notes[0];
        await EraseAsync(bench, exam);
        Assert.True((await bench.Bridge.Keeper.RecordAsync(Note(note.Entry, exam))).IsRepeat);
        await bench.Bridge.Keeper.RecordAsync(bench.Stamp(id => Note(id, exam)));
        await Eventually.Is(() => bench.Find(exam)!.Incidents.Any(i => i.Kind == IncidentKind.EntryNotApplied));
        Assert.Null(Assert.Single(bench.Find(exam)!.Notes).Text);
    }

    [Theory]
    [InlineData("the order alone")]
    [InlineData("the keys, and the exam log not yet")]
    public async Task An_erasure_that_was_cut_off_is_carried_out_at_the_next_start(string done)
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var order = Order(bench, exam);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        var sequence = Append(bench, order);
        if (done.StartsWith("the keys", StringComparison.Ordinal))
        {
            using var keys = SubjectKeyStore.Open(bench.Disk, bench.DataFolder, null);
            keys.Destroy([.. order.Patients, .. order.Texts], sequence);
        }

        var check = ProjectionCheck.Offline(Parts(bench), CancellationToken.None);
        Assert.False(check.IsSame);
        Assert.Contains("made anew", check.Trouble, StringComparison.Ordinal);

        bench.Open();
        await Eventually.Is(() => bench.Find(exam)?.Erasure is not null);
        Assert.True(SealedNumbers.IsErased(bench.Find(exam)!.Patient!.Value));
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        IsSound(bench);
        NowhereIn(bench.DataFolder);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Keys_out_of_an_older_backup_go_through_the_erasures_again(bool isOffline)
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await ExamineAsync(bench, Number, Name);
        var folder = Path.Combine(bench.DataFolder, SubjectKeyStore.FolderName);
        var backup = Directory.EnumerateFiles(folder).ToDictionary(path => path, ReadShared);
        await EraseAsync(bench, exam);
        // Whether a busy machine lets it stop in good order is asked elsewhere.
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();

        foreach (var (path, bytes) in backup)
            File.WriteAllBytes(path, bytes);
        if (isOffline)
        {
            OfflineFolder.Open(Parts(bench)).Dispose();
        }
        else
        {
            bench.Open();
            await Eventually.Is(() => bench.Find(exam)?.Erasure is not null);
            await bench.Bridge.StopAsync();
            await bench.Bridge.DisposeAsync();
        }

        using (var keys = SubjectKeyStore.Open(bench.Disk, bench.DataFolder, null))
            Assert.Empty(keys.Find(new PatientId(Number)));
        OfflineFolder.Rebuild(Parts(bench), "test", CancellationToken.None);
        IsSound(bench);
        NowhereIn(bench.DataFolder);
    }

    [Fact]
    public async Task Keys_that_are_missing_altogether_keep_the_service_from_starting_and_none_are_made_in_their_place()
    {
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        await ExamineAsync(bench, Number, Name);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        Directory.Delete(Path.Combine(bench.DataFolder, SubjectKeyStore.FolderName), recursive: true);
        var refused = Assert.Throws<BridgeStartException>(() => bench.Open());
        Assert.Contains("backup", refused.Message, StringComparison.Ordinal);
        Assert.False(SubjectKeyStore.Exists(bench.Disk, bench.DataFolder));
    }

    private static JournalSequence Append(BridgeBench bench, PatientErased order)
    {
        using var writer = JournalWriter.Open(
            bench.Disk,
            new JournalOptions
            {
                Folder = new JournalFolder(bench.DataFolder),
                Writer = "test",
                Time = TimeProvider.System,
            }
        );
        var sequence = writer.Append(Exams.Entries.Codec.EntryCodec.Encode(order));
        writer.Commit();
        return new JournalSequence(sequence);
    }
}
