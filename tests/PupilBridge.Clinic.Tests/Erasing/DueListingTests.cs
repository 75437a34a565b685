using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Tests.Support;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Erasing;

/// <summary>Whose last visit lies long ago, against a plain list held in the test.</summary>
public sealed class DueListingTests : IDisposable
{
    private static readonly DateTimeOffset Today = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset TenYearsAgo = Today.AddYears(-10);
    private readonly TestHouse house = new();
    private readonly List<(string Patient, DateTimeOffset At, long Exam)> visits = [];

    public void Dispose() => house.Dispose();

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 7)]
    [InlineData(3, 500)]
    public async Task Pages_together_are_all_whose_last_visit_lies_before_the_longest_ago_first(int seed, int limit)
    {
        var random = new Random(seed);
        foreach (var days in Enumerable.Range(0, 300).Select(_ => random.Next(1, 20 * 365)).Order().Reverse())
        {
            Visit($"Q-{1000 + random.Next(120)}", Today.AddDays(-days));
        }

        house.WriteLog();
        var expected = visits
            .GroupBy(visit => visit.Patient)
            .Select(own => own.MaxBy(visit => (visit.At, Id(visit.Exam), 0)))
            .Where(last => last.At < TenYearsAgo)
            .OrderBy(last => last.At)
            .ThenBy(last => Id(last.Exam), StringComparer.Ordinal)
            .Select(last => new DuePatient(last.Patient, last.At, last.Exam))
            .ToList();
        Assert.InRange(expected.Count, 10, 100);
        Assert.Equal(expected, await AllAsync(limit));
    }

    [Fact]
    public async Task A_person_with_two_numbers_is_listed_once_under_the_one_that_goes_on_by_the_last_visit_of_both()
    {
        Visit("Q-1001", Today.AddYears(-15));
        Visit("Q-1002", Today.AddYears(-12));
        Visit("Q-1003", Today.AddYears(-14));
        Visit("Q-1004", Today.AddYears(-1));
        Merge(kept: "Q-1001", merged: "Q-1002");
        Merge(kept: "Q-1004", merged: "Q-1003");
        house.WriteLog();
        var one = Assert.Single(await AllAsync(50));
        Assert.Equal(("Q-1001", Today.AddYears(-12)), (one.Patient, one.LastVisit));
    }

    [Fact]
    public async Task Whoever_was_erased_and_exams_of_nobody_are_not_listed()
    {
        Visit("erased-4", Today.AddYears(-15));
        Visit(null, Today.AddYears(-14));
        Visit("Q-1001", Today.AddYears(-13));
        house.WriteLog();
        Assert.Equal("Q-1001", Assert.Single(await AllAsync(50)).Patient);
    }

    [Fact]
    public async Task An_exam_that_is_open_just_now_and_not_in_the_log_yet_is_a_visit()
    {
        Visit("Q-1001", Today.AddYears(-15));
        Visit("Q-1002", Today.AddYears(-14));
        house.WriteLog();
        Visit("Q-1001", Today);
        Assert.Equal("Q-1002", Assert.Single(await AllAsync(50)).Patient);
    }

    [Fact]
    public async Task A_page_that_has_looked_at_enough_ends_and_says_where_to_go_on()
    {
        for (var n = 0; n < 2_300; n++)
        {
            Visit("Q-1001", Today.AddYears(-15).AddHours(n));
        }

        Visit("Q-1002", Today.AddYears(-11));
        Visit("Q-1001", Today.AddDays(-1));
        house.WriteLog();
        var first = await PageAsync(null, 50);
        Assert.Empty(first.Patients);
        Assert.NotNull(first.Next);
        var second = await PageAsync(first.Next, 50);
        Assert.Equal("Q-1002", Assert.Single(second.Patients).Patient);
        Assert.Null(second.Next);
    }

    [Fact]
    public async Task A_page_that_the_last_one_fills_leads_to_no_empty_page()
    {
        Visit("Q-1001", Today.AddYears(-15));
        Visit("Q-1002", Today.AddYears(-14));
        house.WriteLog();
        var page = await PageAsync(null, 2);
        Assert.Equal(2, page.Patients.Count);
        Assert.Null(page.Next);
    }

    [Theory]
    [InlineData("nowhere", 50)]
    [InlineData(null, 0)]
    [InlineData(null, 501)]
    public Task What_is_no_place_or_no_limit_is_refused_with_words(string? after, int limit) =>
        Assert.ThrowsAsync<EntryProblemException>(() => PageAsync(after, limit));

    private async Task<List<DuePatient>> AllAsync(int limit)
    {
        List<DuePatient> all = [];
        string? after = null;
        do
        {
            var page = await PageAsync(after, limit);
            Assert.True(page.Patients.Count <= limit);
            all.AddRange(page.Patients);
            after = page.Next;
        } while (after is not null);

        return all;
    }

    private Task<DueList> PageAsync(string? after, int limit) =>
        new ClinicDesk(house).ListDueAsync(TenYearsAgo, after, limit, CancellationToken.None);

    private void Visit(string? patient, DateTimeOffset at)
    {
        var place = house.Add(
            new ExamOpened
            {
                Id = EntryId.From(Guid.NewGuid()),
                Who = new("MK"),
                At = UtcTime.From(at),
                ProgramVersion = "0.1.0",
                Serial = new SerialNumber("QA-7"),
                Patient = patient is null ? null : new(patient),
            }
        );
        if (patient is not null)
        {
            visits.Add((patient, at, ExamId.OpenedBy(place).Value));
        }
    }

    private void Merge(string kept, string merged) =>
        house.Add(
            new PatientsMerged
            {
                Id = EntryId.From(Guid.NewGuid()),
                Who = new("TL"),
                At = UtcTime.From(Today),
                ProgramVersion = "0.1.0",
                Kept = new(kept),
                Merged = new(merged),
                IsDespiteBirthDates = false,
                Reason = "entered twice",
            }
        );

    private static string Id(long exam) => Worker.Projection.ExamDocuments.IdOf(new ExamId(exam));
}
