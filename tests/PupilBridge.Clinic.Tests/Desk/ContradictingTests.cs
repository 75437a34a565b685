using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Tests.Desk;

/// <summary>Who contradicts what somebody else entered is told at once; both answers are kept.</summary>
public sealed class ContradictingTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Another_persons_other_grade_is_taken_and_told()
    {
        var exam = await clinic.ExamineAsync();

        var second = Assert.IsType<EntryOutcome.Recorded>(
            await clinic.EnterAsync(clinic.Judging(exam, "direct OD 0") with { Who = "KL" })
        );

        Assert.Contains("MK judged otherwise: direct OD 3", second.Notice, StringComparison.Ordinal);
        var judged = (await clinic.RecordAsync(exam))
            .Exam.Judgements.Where(j => j.Judgement.StartsWith("direct OD", StringComparison.Ordinal))
            .ToList();
        Assert.Equal(
            [("direct OD 0", "KL", true), ("direct OD 3", "MK", false)],
            judged.Select(j => (j.Judgement, j.Who, j.Counts))
        );
    }

    [Fact]
    public async Task The_same_grade_or_ones_own_correction_is_nothing_to_tell()
    {
        var exam = await clinic.ExamineAsync();
        Assert.Null(
            Assert
                .IsType<EntryOutcome.Recorded>(
                    await clinic.EnterAsync(clinic.Judging(exam, "direct OD 3") with { Who = "KL" })
                )
                .Notice
        );
        Assert.Null(
            Assert
                .IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(clinic.Judging(exam, "shape OS not-round")))
                .Notice
        );
    }

    [Fact]
    public async Task Another_answer_about_the_same_run_of_swinging_counts_as_little_as_the_first()
    {
        var exam = await clinic.ExamineAsync();
        var second = Assert.IsType<EntryOutcome.Recorded>(
            await clinic.EnterAsync(clinic.Judging(exam, "swing long worse OD") with { Who = "KL" })
        );
        Assert.Contains("neither counts", second.Notice, StringComparison.Ordinal);
        Assert.Contains("disagree", (await clinic.RecordAsync(exam)).SwingWords, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_grade_of_a_pupil_that_cannot_be_seen_is_taken_and_told()
    {
        var exam = await clinic.ExamineAsync();
        await clinic.CountsAsync(
            new EyeStatusEntry
            {
                EntryId = clinic.NewId(),
                Who = "MK",
                At = clinic.Instrument.Now,
                ProgramVersion = "0.1.0",
                Exam = exam,
                Eye = "OD",
                Conditions = ["prosthesis"],
            }
        );
        var graded = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(clinic.Judging(exam, "direct OD 2")));
        Assert.Contains("its pupil cannot be seen", graded.Notice, StringComparison.Ordinal);
    }

    public void Dispose() => clinic.Dispose();
}
