using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Records;

/// <summary>
/// A bench run has a number like an exam, and whoever asks for the exam of that number gets none: no record, no chart, nothing to send.
/// </summary>
public sealed class BenchRunsApartTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task No_one_who_asks_for_an_exam_gets_a_run(bool isWritten)
    {
        var exam = await clinic.ReadyExamAsync("Q-1001");
        var run = MeasureInRun();
        if (isWritten)
            clinic.House.WriteLog();

        Assert.NotNull(await clinic.Records.ShowRecordAsync(exam, default));
        Assert.Null(await clinic.Records.ShowRecordAsync(run, default));
        Assert.Null(await clinic.Records.ShowOutgoingAsync(run, null, default));
        Assert.Null(await clinic.Desk.ShowExamAsync(run, default));
        Assert.Null(await clinic.Desk.ChartAsync(run, default));
        Assert.Null(await clinic.Desk.AskedForAsync(run, default));
        Assert.NotNull(clinic.House.FindSitting(new ExamId(run)));
    }

    [Fact]
    public async Task No_list_of_exams_names_a_run()
    {
        var exam = await clinic.ReadyExamAsync("Q-1001");
        MeasureInRun();
        clinic.House.WriteLog();

        var found = await clinic.Records.SearchExamsAsync(new ExamSearch(), default);
        Assert.Equal([exam], found.Exams.Select(one => one.Summary.Exam));
        var waiting = await clinic.Records.ListForReviewAsync(null, 50, default);
        Assert.Equal([exam], waiting.Exams.Select(one => one.Summary.Exam));
        var listed = await clinic.Desk.ListExamsAsync(new ExamListRequest(), default);
        Assert.Equal([exam], listed.Exams.Select(one => one.Exam));
    }

    [Fact]
    public async Task What_is_about_an_exam_is_refused_for_a_run_and_the_person_is_told_why()
    {
        var run = MeasureInRun();
        var refused = Assert.IsType<EntryOutcome.Refused>(
            await clinic.EnterAsync(clinic.Judging(run, "shape OD round"))
        );
        Assert.Contains("run on the bench", refused.Reason, StringComparison.Ordinal);
        Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Ready(run)));
    }

    public void Dispose() => clinic.Dispose();

    private long MeasureInRun()
    {
        clinic.House.Add(
            new BenchRunBegun
            {
                Id = new(UInt128.MaxValue - 7),
                Who = new("TK"),
                At = UtcTime.From(clinic.Instrument.Now),
                ProgramVersion = "0.1.0",
                Serial = clinic.Instrument.Serial,
                Kind = BenchRunKind.StimulusTiming,
                DiscSet = null,
                Plan = [],
                Seed = 0,
                Rule = null,
                StraightnessMillimetres = 0,
                TemperatureCelsius = null,
                Conditions = "",
            }
        );
        var run = clinic.House.Journal.Count;
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        clinic.House.Add(clinic.Instrument.Mark(Eye.Right, 4_000));
        clinic.House.Add(clinic.Instrument.Mark(Eye.Left, 4_000));
        Assert.Equal(2, clinic.House.FindSitting(new ExamId(run))!.Captures.Count);
        return run;
    }
}
