using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Judging;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Desk;

/// <summary>The desk asks the domain whether a judgement would count; the rules themselves are tested there.</summary>
public sealed class JudgingTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Theory]
    [InlineData("shape OD round", "both pupils have not been measured yet", "Measure both pupils")]
    [InlineData("direct OD 3", "has not had a complete stimulus yet", "direct block")]
    [InlineData("consensual lit OS 2", "has not had a complete stimulus yet", "direct block")]
    [InlineData("swing short alike", "alternations of that dwell are not complete yet", "run to its count")]
    [InlineData("near OS 2", "has not looked near yet", "near block")]
    [InlineData("slow-to-dilate OD", "no light has gone away yet", "lamp goes off")]
    public async Task A_judgement_without_its_opportunity_is_refused_and_not_recorded(
        string text,
        string why,
        string next
    )
    {
        var exam = await clinic.OpenAsync();
        var length = clinic.House.Journal.Count;

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Judging(exam, text)));

        Assert.Contains(text, refused.Reason, StringComparison.Ordinal);
        Assert.Contains(why, refused.Reason, StringComparison.Ordinal);
        Assert.Contains(next, refused.NextStep, StringComparison.Ordinal);
        Assert.Equal(length, clinic.House.Journal.Count);
    }

    [Fact]
    public async Task With_its_opportunity_each_judgement_counts()
    {
        var exam = await ExamWithEverythingAsync();

        foreach (
            var text in new[]
            {
                "shape OD round",
                "shape OS not-round",
                "direct OD 3",
                "direct OS could-not-see",
                "consensual lit OD 2",
                "swing short alike",
                "swing long worse OS",
                "slow-to-dilate OS",
            }
        )
        {
            var outcome = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(clinic.Judging(exam, text)));
            Assert.Null(outcome.Notice);
        }

        var view = (await clinic.Desk.ShowExamAsync(exam, default))!;
        Assert.Equal(8, view.Judgements.Count);
        Assert.All(view.Judgements, judgement => Assert.True(judgement.Counts));
        Assert.Contains(view.Judgements, judgement => judgement.Judgement == "swing long worse OS");
    }

    [Fact]
    public async Task What_the_journal_refuses_after_all_is_said_although_it_is_recorded()
    {
        var exam = await ExamWithEverythingAsync();
        clinic.House.JustBeforeRecording = () =>
            clinic.House.Add(
                new Exams.Entries.ExamSetAside
                {
                    Id = new Exams.Entries.EntryId(999),
                    Who = new Exams.Entries.PersonId("KL"),
                    At = Exams.Entries.UtcTime.From(clinic.Instrument.Now),
                    ProgramVersion = "0.1.0",
                    Exam = new Exams.Entries.ExamId(exam),
                    Reason = "drops were in",
                }
            );

        var outcome = Assert.IsType<EntryOutcome.Recorded>(
            await clinic.EnterAsync(clinic.Judging(exam, "direct OD 3"))
        );

        Assert.Contains("does not count", outcome.Notice, StringComparison.Ordinal);
        Assert.Contains("set aside", outcome.Notice, StringComparison.Ordinal);
        Assert.Equal(JudgementRefusal.ExamSetAside, Assert.Single(clinic.Exam(exam).RefusedJudgements).Reason);
    }

    [Fact]
    public async Task A_later_judgement_goes_before_the_earlier_one_and_both_are_shown()
    {
        var exam = await ExamWithEverythingAsync();
        await clinic.EnterAsync(clinic.Judging(exam, "direct OD 1"));
        await clinic.EnterAsync(clinic.Judging(exam, "direct OD 3"));

        var judgements = (await clinic.Desk.ShowExamAsync(exam, default))!.Judgements;

        Assert.Equal(["direct OD 3", "direct OD 1"], judgements.Select(j => j.Judgement));
        Assert.Equal([null, "a later one holds"], judgements.Select(j => j.WhyNot));
    }

    [Fact]
    public async Task A_line_that_judges_both_eyes_is_two_entries()
    {
        var exam = await ExamWithEverythingAsync();
        var stamp = new EntryStamp("MK", clinic.Instrument.Now, "0.1.0");

        var entries = DeskEntries.Judgements("shape both round", stamp, exam, clinic.NewId);
        foreach (var entry in entries)
        {
            Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(entry));
        }

        Assert.Equal(2, entries.Select(entry => entry.EntryId).Distinct().Count());
        Assert.Equal(["shape OD round", "shape OS round"], entries.Select(entry => entry.Judgement));
        var refused = await clinic.EnterAsync(clinic.Judging(exam, "shape both round"));
        Assert.Contains(
            "one entry for each eye",
            Assert.IsType<EntryOutcome.Refused>(refused).Reason,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task What_is_asked_for_follows_the_exam()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));

        Assert.Equal("Say whether the room is bright or dim.", await FirstAskedAsync(exam));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        Assert.Equal("Measure the pupil of OD (right).", await FirstAskedAsync(exam));
        clinic.MeasureBoth();
        var asked = (await clinic.Desk.AskedForAsync(exam, default))!.Steps[0];
        Assert.Equal("Judge the shape of the pupil of OD (right): round or not round?", asked.Words);
        Assert.Equal(("shape", true), (asked.Step, asked.CanBeJudgedNow));
        Assert.Equal(["OD"], asked.Eyes);
        foreach (var judgement in JudgementSyntax.Read("shape both round"))
        {
            await clinic.EnterAsync(clinic.Judging(exam, JudgementSyntax.Write(judgement)));
        }

        Assert.Equal("Make the room dim.", await FirstAskedAsync(exam));
        var direct = (await clinic.Desk.AskedForAsync(exam, default))!.Steps.Single(step => step.Step == "direct");
        Assert.False(direct.CanBeJudgedNow);
        Assert.Equal("Still to come: direct response.", direct.Words);
    }

    public void Dispose() => clinic.Dispose();

    private async Task<string> FirstAskedAsync(long exam) =>
        (await clinic.Desk.AskedForAsync(exam, default))!.Steps[0].Words;

    private async Task<long> ExamWithEverythingAsync()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth();
        clinic.House.Add(clinic.Instrument.DirectBlock());
        clinic.House.Add(clinic.Instrument.SwingBlock(Block.SwingShort, 1000));
        clinic.House.Add(clinic.Instrument.SwingBlock(Block.SwingLong, 3000));
        return exam;
    }
}
