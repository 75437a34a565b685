using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class ReviewListTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Whoever_a_clinician_should_see_before_drops_stands_first_then_the_oldest()
    {
        var plain = await clinic.ReadyExamAsync("Q-1001");
        var poor = await clinic.ExamineAsync("Q-1002", directOd: "1");
        await clinic.CountsAsync(clinic.Ready(poor));
        var plainToo = await clinic.ReadyExamAsync("Q-1003");
        var unequal = await clinic.ReadyExamAsync("Q-1004", right: 6_000);
        var swing = await clinic.ExamineAsync("Q-1005", swing: "worse OS");
        await clinic.CountsAsync(clinic.Ready(swing));

        var list = await AllAsync(50);

        Assert.Equal([poor, unequal, swing, plain, plainToo], list.Select(exam => exam.Summary.Exam));
        Assert.StartsWith("poor direct response, OD (right): 1+", list[0].BeforeDrops[0], StringComparison.Ordinal);
        Assert.Equal(
            "sizes differ by 1.9 mm in bright light, OD (right) larger (limit in use 0.4 mm), not known from an earlier visit",
            list[1].BeforeDrops[0]
        );
        Assert.Equal(["swinging asymmetry, OS (left)"], list[2].BeforeDrops);
        Assert.Contains("before-drops", list[0].Findings);
        Assert.Empty(list[3].Findings);
        Assert.All(list, exam => Assert.False(exam.IsLeftOpen));
    }

    [Fact]
    public async Task An_anisocoria_that_was_known_at_an_earlier_visit_puts_nobody_first()
    {
        var plain = await clinic.ReadyExamAsync("Q-1001");
        await clinic.ReadyExamAsync("Q-1002", right: 6_000);
        var known = await clinic.ReadyExamAsync("Q-1002", right: 6_000);

        var list = await AllAsync(50);

        Assert.Equal("Q-1002", list[0].Summary.Patient);
        Assert.Equal([plain, known], list.Skip(1).Select(exam => exam.Summary.Exam));
        Assert.Empty(list[2].BeforeDrops);
        Assert.DoesNotContain("before-drops", list[2].Findings);
        Assert.Contains("anisocoria", list[2].Findings);
    }

    [Fact]
    public async Task An_exam_that_was_left_open_waits_too_and_says_so()
    {
        var ready = await clinic.ReadyExamAsync("Q-1001");
        var left = await clinic.OpenAsync("Q-1002");
        clinic.House.Add(clinic.Instrument.SwitchOff());

        var list = await AllAsync(50);

        Assert.Equal([left, ready], list.Select(exam => exam.Summary.Exam));
        Assert.True(list[0].IsLeftOpen);
        Assert.Contains("incomplete: sizes in bright light", list[0].BeforeDrops);
    }

    [Fact]
    public async Task What_was_signed_waits_no_longer_until_it_is_amended_and_neither_does_what_runs()
    {
        var signed = await clinic.ReadyExamAsync("Q-1001");
        clinic.House.WriteLog();
        await clinic.CountsAsync(clinic.Signature(signed, (await clinic.RecordAsync(signed)).DraftDigest));
        await clinic.OpenAsync("Q-1002");

        Assert.Empty((await clinic.Records.ListForReviewAsync(null, 50, default)).Exams);
        Assert.Empty(await AllAsync(50));

        await clinic.CountsAsync(clinic.Amending(signed, "grade mistyped"));
        Assert.Equal([signed], (await AllAsync(50)).Select(exam => exam.Summary.Exam));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(50)]
    public async Task What_changed_since_the_log_was_written_stands_in_its_place_and_hides_nobody(int limit)
    {
        var waiting = new List<long>();
        for (var n = 0; n < 5; n++)
        {
            waiting.Add(await clinic.ReadyExamAsync($"Q-{1001 + n}"));
        }

        clinic.House.WriteLog();
        await clinic.CountsAsync(clinic.Signature(waiting[1], (await clinic.RecordAsync(waiting[1])).DraftDigest));
        var later = await clinic.ReadyExamAsync("Q-1007");
        var urgent = await clinic.ReadyExamAsync("Q-1008", right: 6_000);
        await clinic.OpenAsync("Q-1009");

        Assert.Equal(
            [urgent, waiting[0], waiting[2], waiting[3], waiting[4], later],
            (await AsTheLogStandsAsync(limit)).Select(exam => exam.Summary.Exam)
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(500)]
    public async Task Pages_together_are_the_list(int limit)
    {
        for (var n = 0; n < 4; n++)
        {
            await clinic.ReadyExamAsync($"Q-{1001 + n}");
            await clinic.ReadyExamAsync($"Q-{2001 + (n % 2)}", right: 6_000);
        }

        var whole = (await AllAsync(500)).Select(exam => exam.Summary.Exam).ToList();
        var pages = (await AllAsync(limit)).Select(exam => exam.Summary.Exam).ToList();

        Assert.Equal(8, whole.Count);
        Assert.Equal(whole, pages);
    }

    [Theory]
    [InlineData("yesterday", 50)]
    [InlineData("9:1~2", 50)]
    [InlineData(null, 0)]
    [InlineData(null, 501)]
    public async Task A_page_that_is_none_is_explained(string? after, int limit) =>
        Assert.NotEmpty(
            (
                await Assert.ThrowsAsync<EntryProblemException>(() =>
                    clinic.Records.ListForReviewAsync(after, limit, default)
                )
            ).Message
        );

    public void Dispose() => clinic.Dispose();

    private Task<List<FoundExam>> AllAsync(int limit)
    {
        clinic.House.WriteLog();
        return AsTheLogStandsAsync(limit);
    }

    private async Task<List<FoundExam>> AsTheLogStandsAsync(int limit)
    {
        var all = new List<FoundExam>();
        string? after = null;
        do
        {
            var page = await clinic.Records.ListForReviewAsync(after, limit, default);
            Assert.True(page.Exams.Count <= limit);
            all.AddRange(page.Exams);
            after = page.Next;
        } while (after is not null);

        return all;
    }
}
