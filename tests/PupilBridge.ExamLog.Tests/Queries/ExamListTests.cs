using CsCheck;
using PupilBridge.ExamLog.Tests.Support;
using PupilBridge.Exams.Values;

namespace PupilBridge.ExamLog.Tests.Queries;

public sealed class ExamListTests : IClassFixture<TenThousandExams>
{
    private readonly TenThousandExams log;

    public ExamListTests(TenThousandExams log) => this.log = log;

    [Fact]
    public void The_latest_exams_stand_first()
    {
        var page = log.Store.ListExams(new ExamQuery { Limit = 10 });

        Assert.Equal(log.Expected(new ExamQuery()).Take(10).Select(e => e.Id), page.Items.Select(e => e.Id));
        Assert.NotNull(page.Next);
    }

    [Fact]
    public void Today_is_a_range_of_times()
    {
        var query = new ExamQuery
        {
            OpenedFrom = Samples.Start.Date,
            OpenedBefore = Samples.Start.Date.AddDays(1),
            Limit = 500,
        };

        var today = log.Store.ListExams(query);

        Assert.NotEmpty(today.Items);
        Assert.All(today.Items, exam => Assert.Equal(Samples.Start.Date, exam.OpenedAt.Date));
        Assert.Equal(log.Expected(query).Select(e => e.Id), today.Items.Select(e => e.Id));
    }

    [Fact]
    public void Pages_from_the_oldest_on_together_are_all_exams_before_a_time() =>
        Gen.Select(Gen.Int[-10_000, 24_000], Gen.Int[3, 500])
            .Sample(
                (minutes, limit) =>
                {
                    var before = Samples.Start.AddMinutes(minutes);
                    List<string> found = [];
                    string? after = null;
                    do
                    {
                        var page = log.Store.ListOldestExams(before, after, limit);
                        Assert.InRange(page.Items.Count, page.Next is null ? 0 : limit, limit);
                        found.AddRange(page.Items.Select(exam => exam.Id));
                        after = page.Next;
                    } while (after is not null);

                    Assert.Equal(
                        log.Expected(new ExamQuery { OpenedBefore = before }).Select(exam => exam.Id).Reverse(),
                        found
                    );
                },
                iter: 10,
                threads: 1
            );

    [Fact]
    public void Pages_of_any_list_together_are_the_list()
    {
        // A person may have several numbers; the same one given twice is one.
        var patients = Gen.Int[-80, 41]
            .Select(n => n < 0 ? null : $"Q-{1001 + n}")
            .Array[1, 3]
            .Select(all => all[0] is null ? [] : (ValueList<string>)[.. all.OfType<string>()]);
        var statuses = Gen.Int[0, Samples.Statuses.Length - 1].Array[0, 3].Select(Words);
        var examiners = Gen.Int[-6, Samples.Examiners.Length - 1].Select(n => n < 0 ? null : Samples.Examiners[n]);
        var findings = Gen.Int[-4, Samples.Findings.Length - 1].Select(n => n < 0 ? null : Samples.Findings[n]);
        var times = Gen.Int[-10_000, 24_000].Select(m => m < -50 ? null : (DateTimeOffset?)Samples.Start.AddMinutes(m));
        Gen.Select(patients, statuses, examiners, findings, times, times, Gen.Int[1, 500])
            .Select(
                (patient, status, examiner, finding, from, before, limit) =>
                    new ExamQuery
                    {
                        PatientIds = patient,
                        Statuses = status,
                        Examiner = examiner,
                        Finding = finding,
                        OpenedFrom = from,
                        OpenedBefore = before,
                        Limit = limit,
                    }
            )
            .Sample(RequirePagesOf, iter: 150, threads: 1);
    }

    [Fact]
    public void A_page_of_a_list_by_several_things_ends_when_it_has_looked_at_enough_and_says_where_to_go_on()
    {
        // Each alone is common, both together never happen: 2,000 exams and more to pass over.
        var query = new ExamQuery
        {
            Examiner = "mk",
            Status = Samples.Statuses[0],
            Finding = "anisocoria",
            OpenedBefore = Samples.Start,
        };
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        var common = Enumerable
            .Range(0, 5000)
            .Select(n => Early(n, n % 2 == 0 ? "open" : "ready", n % 2 == 0))
            .ToList();
        store.Apply(1, new ExamLogChanges { Exams = common });

        var first = store.ListExams(query with { Status = "ready", Limit = 10 });
        var second = store.ListExams(query with { Status = "ready", Limit = 10, After = first.Next });

        Assert.Empty(first.Items);
        Assert.NotNull(first.Next);
        Assert.Empty(second.Items);
        Assert.Null(second.Next);
    }

    [Fact]
    public void The_examiner_is_found_in_upper_and_lower_case()
    {
        var upper = log.Store.ListExams(new ExamQuery { Examiner = "MK", Limit = 100 });
        var lower = log.Store.ListExams(new ExamQuery { Examiner = "mk", Limit = 100 });

        Assert.Equal(upper.Items.Select(e => e.Id), lower.Items.Select(e => e.Id));
        Assert.Equal(["MK", "mk"], upper.Items.Select(e => e.Examiner).Distinct().Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(500)]
    public void The_list_to_review_holds_first_turns_first_and_the_oldest_first_among_them(int limit)
    {
        var expected = log.Expected(new ExamQuery())
            .Where(exam => exam.Review != ReviewTurn.NotWaiting)
            .Reverse()
            .OrderByDescending(exam => exam.Review)
            .Select(exam => exam.Id)
            .ToList();
        var found = new List<string>();
        string? after = null;
        for (var question = 0; question < 40; question++)
        {
            var page = log.Store.ListForReview(after, limit);
            found.AddRange(page.Items.Select(exam => exam.Id));
            after = page.Next;
            if (after is null)
            {
                break;
            }
        }

        Assert.True(found.Count >= 40);
        Assert.Equal(after is null ? expected : expected.Take(found.Count), found);
    }

    [Theory]
    [InlineData("somewhere")]
    [InlineData("7:12~E-000001")]
    [InlineData("2:12")]
    public void A_place_that_is_none_in_the_list_to_review_is_refused(string after)
    {
        var refusal = Assert.Throws<ArgumentException>(() => log.Store.ListForReview(after));

        Assert.Contains("leave it out", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void All_ten_thousand_come_once_each()
    {
        var ids = new List<string>();
        string? after = null;
        do
        {
            var page = log.Store.ListExams(new ExamQuery { Limit = 500, After = after });
            ids.AddRange(page.Items.Select(e => e.Id));
            after = page.Next;
        } while (after is not null);

        Assert.Equal(log.Expected(new ExamQuery()).Select(e => e.Id), ids);
        Assert.Equal(TenThousandExams.Count, ids.Count);
    }

    [Fact]
    public void Patients_come_in_pages_by_number()
    {
        var first = log.Store.ListPatients(limit: 25);
        var second = log.Store.ListPatients(first.Next, 25);

        Assert.Equal(25, first.Items.Count);
        Assert.Null(second.Next);
        Assert.Equal(
            Enumerable.Range(1001, 40).Select(n => $"Q-{n}"),
            first.Items.Concat(second.Items).Select(patient => patient.Id)
        );
    }

    [Theory]
    [InlineData("somewhere")]
    [InlineData("~E-000001")]
    public void A_place_that_is_none_is_refused_with_what_to_do(string after)
    {
        var refusal = Assert.Throws<ArgumentException>(() => log.Store.ListExams(new ExamQuery { After = after }));

        Assert.Contains("leave it out", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(501)]
    public void A_page_has_a_limit(int limit) =>
        Assert.Throws<ArgumentException>(() => log.Store.ListExams(new ExamQuery { Limit = limit }));

    private static StoredExam Early(int number, string status, bool isFound) =>
        Samples.Exam(number) with
        {
            OpenedAt = Samples.Start.AddDays(-number - 1),
            Examiner = "MK",
            Status = status,
            Findings = isFound ? ["anisocoria"] : [],
        };

    private static ValueList<string> Words(int[] statuses) => [.. statuses.Select(n => Samples.Statuses[n])];

    private void RequirePagesOf(ExamQuery query)
    {
        // Small pages of a long list would only take time: compare as many pages as fit in 40 questions.
        var expected = log.Expected(query).Select(e => e.Id).ToList();
        var found = new List<string>();
        var next = query;
        for (var question = 0; question < 40; question++)
        {
            var page = log.Store.ListExams(next);
            Assert.True(page.Items.Count <= query.Limit);
            found.AddRange(page.Items.Select(e => e.Id));
            if (page.Next is null)
            {
                Assert.Equal(expected, found);
                return;
            }

            Assert.NotEqual(next.After, page.Next);
            next = query with { After = page.Next };
        }

        Assert.Equal(expected.Take(found.Count), found);
    }
}
