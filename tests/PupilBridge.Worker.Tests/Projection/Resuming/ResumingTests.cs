using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Worker.Tests.Projection.Resuming;

/// <summary>After a power loss the exam log is made anew, which is held up here: do lanes go on meanwhile, and from the right place?</summary>
public sealed class ResumingTests
{
    private static readonly SerialNumber Serial = new("T-100");

    private static string Points(BridgeBench bench) => Path.Combine(bench.DataFolder, "resume");

    private static string InTheWay(BridgeBench bench) => Path.Combine(bench.DataFolder, "examlog.rebuild");

    /// <summary>Stops, leaves everything as a power loss does, and keeps the exam log from being made anew.</summary>
    private static async Task LosePowerAsync(BridgeBench bench)
    {
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();
        File.WriteAllText(Path.Combine(bench.DataFolder, "examlog", "state"), "open under another run of the system\n");
        File.WriteAllText(InTheWay(bench), "");
    }

    /// <summary>An exam that a person opens for a patient, with a remark.</summary>
    private static async Task<Exam> BeginExamAsync(BridgeBench bench, string patient)
    {
        var receipt = await bench.Bridge.Keeper.RecordAsync(
            bench.Stamp(id => new ExamOpened
            {
                Id = id,
                Who = new("MK"),
                At = UtcTime.From(TimeProvider.System.GetUtcNow()),
                ProgramVersion = "test",
                Serial = Serial,
                Patient = new(patient),
            })
        );
        await bench.Bridge.Keeper.RecordAsync(Stamped(bench, ExamId.OpenedBy(receipt.Sequence), Note));
        await Eventually.Is(() => bench.Bridge.Exams.OpenExamOf(Serial)?.Notes.Count == 1);
        return bench.Bridge.Exams.OpenExamOf(Serial)!;
    }

    private static T Stamped<T>(BridgeBench bench, ExamId exam, Func<EntryId, ExamId, T> make)
        where T : PersonEntry => bench.Stamp(id => make(id, exam));

    private static ExamMadeReady Ready(EntryId id, ExamId exam) =>
        new()
        {
            Id = id,
            Who = new("MK"),
            At = UtcTime.From(TimeProvider.System.GetUtcNow()),
            ProgramVersion = "test",
            Exam = exam,
        };

    private static NoteEntered Note(EntryId id, ExamId exam) =>
        new()
        {
            Id = id,
            Who = new("MK"),
            At = UtcTime.From(TimeProvider.System.GetUtcNow()),
            ProgramVersion = "test",
            Exam = exam,
            Text = "seen again",
        };

    [Fact]
    public async Task After_a_power_loss_an_open_exam_goes_on_while_the_exam_log_is_made_anew_and_both_agree_in_the_end()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var ended = await bench.WrittenAsync(await bench.ExamineAsync("Q-1001"));
        var open = await BeginExamAsync(bench, "Q-1002");
        bench.Bridge.Points.Save();
        var older = Directory.GetFiles(Points(bench)).Single();
        var kept = File.ReadAllBytes(older);
        await bench.Bridge.Keeper.RecordAsync(Stamped(bench, open.Id, Note));
        await LosePowerAsync(bench);
        // A power loss writes no last point: the one of before counts, and the note comes after it.
        Directory.GetFiles(Points(bench)).ToList().ForEach(File.Delete);
        File.WriteAllBytes(older, kept);

        bench.Open();
        await bench.Live();
        Assert.Null(bench.Bridge.ExamsWaitFor);
        Assert.Throws<ExamLogBrokenException>(() => bench.Bridge.ExamLog.Read(log => log.LastApplied));
        Assert.Equal(open.Id, bench.Bridge.Exams.OpenExamOf(Serial)!.Id);
        Assert.Equal(2, bench.Bridge.Exams.OpenExamOf(Serial)!.Notes.Count);
        Assert.Equal(ended, bench.Bridge.Exams.Find(ended.Id));
        await bench.Bridge.Keeper.RecordAsync(Stamped(bench, open.Id, Ready));
        await Eventually.Is(() => bench.Bridge.Exams.OpenExamOf(Serial) is null);

        File.Delete(InTheWay(bench));
        await bench.WrittenAsync(open.Id, captures: 0);
        Assert.Equal(ended, bench.Find(ended.Id));
        Assert.Equal(1, bench.Bridge.ExamLog.Rebuilds);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        var check = ProjectionCheck.Offline(
            new BridgeParts { Options = new BridgeOptions { DataFolder = bench.DataFolder } },
            CancellationToken.None
        );
        Assert.True(check.IsSame, check.ToString());
    }

    [Fact]
    public async Task An_exam_of_long_ago_is_not_waited_for_by_people_while_the_exam_log_is_made_anew()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        await bench.ExamineAsync("Q-1001");
        await LosePowerAsync(bench);
        bench.Open();
        await bench.Live();
        Assert.Null(bench.Bridge.ExamsWaitFor);
        var refused = Assert.Throws<ExamLogBrokenException>(() => bench.Bridge.Exams.Find(new ExamId(999)));
        Assert.Contains("anew", refused.Message, StringComparison.Ordinal);
        File.Delete(InTheWay(bench));
    }

    [Fact]
    public async Task Where_an_entry_after_the_point_concerns_an_older_exam_the_exams_wait()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var exam = await bench.ExamineAsync("Q-1001");
        await bench.WrittenAsync(exam);
        bench.Bridge.Points.Save();
        var point = bench.Bridge.Points.Find()!;
        Assert.Equal(exam, Assert.Single(point.Ended).Id);
        await bench.Bridge.Keeper.RecordAsync(Stamped(bench, exam, Note));
        await LosePowerAsync(bench);
        var folder = new ResumeFolder(bench.Disk, bench.DataFolder, FileSeal.None);
        folder.Save(point with { Ended = [] });
        await StartsWaitingAsync(bench);
    }

    [Fact]
    public async Task A_point_of_another_journal_is_not_used()
    {
        await using var other = new BridgeBench();
        await other.Live();
        await other.WrittenAsync(await other.ExamineAsync("Q-1002"));
        other.Bridge.Points.Save();
        await using var bench = new BridgeBench();
        await bench.Live();
        await bench.WrittenAsync(await bench.ExamineAsync("Q-1001"));
        await LosePowerAsync(bench);
        Directory.GetFiles(Points(bench)).ToList().ForEach(File.Delete);
        foreach (var path in Directory.GetFiles(Points(other)))
            File.Copy(path, Path.Combine(Points(bench), Path.GetFileName(path)));
        await StartsWaitingAsync(bench);
    }

    [Fact]
    public async Task No_point_keeps_what_was_erased()
    {
        const string number = "Q-1001-ERASEME";
        await using var bench = new BridgeBench(sealing: SealingChoice.Always);
        await bench.Live();
        var exam = await bench.ExamineAsync(number);
        var found = await bench.WrittenAsync(exam);
        bench.Bridge.Points.Save();
        Assert.Single(Directory.GetFiles(Points(bench)));
        var receipt = await bench.Bridge.Keeper.RecordAsync(
            bench.Stamp(id => new PatientErased
            {
                Id = id,
                Who = new("AD"),
                At = new(2_000),
                ProgramVersion = "test",
                Patients = [.. bench.Bridge.SubjectKeys!.Find(found.Patient!.Value)],
                Texts = [],
                Exams = [exam],
                Records = 0,
                OrderedBy = "DPO",
                Reason = "asked for",
            })
        );
        await Eventually.Is(() => bench.Bridge.Exams.Book.LastErasure == receipt.Sequence);
        await bench.Bridge.ExamLog.Renewed;
        bench.Bridge.Points.Save();
        var point = bench.Bridge.Points.Find()!;
        Assert.Equal(receipt.Sequence, point.Book.LastErasure);
        Assert.DoesNotContain(point.Ended, kept => kept.Patient?.Value == number);
    }

    private static async Task StartsWaitingAsync(BridgeBench bench)
    {
        bench.Open();
        await bench.Live();
        Assert.NotNull(bench.Bridge.ExamsWaitFor);
        File.Delete(InTheWay(bench));
        await Eventually.Is(() => bench.Bridge.ExamsWaitFor is null);
    }
}
