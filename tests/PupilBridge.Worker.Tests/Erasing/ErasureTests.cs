using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Worker.Erasing;

namespace PupilBridge.Worker.Tests.Erasing;

/// <summary>A patient erased in a running bridge: what is gone, and what stands.</summary>
public sealed partial class ErasureTests
{
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
}
