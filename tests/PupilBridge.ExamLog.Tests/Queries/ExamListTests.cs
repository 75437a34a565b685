using CsCheck;
using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Queries;

public sealed class ExamListTests : IClassFixture<ExamListTests.TenThousand>
{
    private readonly TenThousand log;

    public ExamListTests(TenThousand log) => this.log = log;

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
    public void Pages_of_any_list_together_are_the_list()
    {
        var patients = Gen.Int[-20, 41].Select(n => n < 0 ? null : $"Q-{1001 + n}");
        var statuses = Gen.Int[-1, Samples.Statuses.Length - 1].Select(n => n < 0 ? null : Samples.Statuses[n]);
        var times = Gen.Int[-10_000, 24_000].Select(m => m < -50 ? null : (DateTimeOffset?)Samples.Start.AddMinutes(m));
        Gen.Select(patients, statuses, times, times, Gen.Int[1, 500])
            .Select(
                (patient, status, from, before, limit) =>
                    new ExamQuery
                    {
                        PatientId = patient,
                        Status = status,
                        OpenedFrom = from,
                        OpenedBefore = before,
                        Limit = limit,
                    }
            )
            .Sample(
                query =>
                {
                    // Small pages of a long list would only take time: compare as many pages as fit in 40 questions.
                    var expected = log.Expected(query).Select(e => e.Id).ToList();
                    var found = new List<string>();
                    var next = query;
                    for (var question = 0; question < 40; question++)
                    {
                        var page = log.Store.ListExams(next);
                        Assert.True(page.Items.Count == query.Limit || page.Next is null);
                        found.AddRange(page.Items.Select(e => e.Id));
                        if (page.Next is null)
                        {
                            Assert.Equal(expected, found);
                            return;
                        }

                        next = query with { After = page.Next };
                    }

                    Assert.Equal(expected.Take(found.Count), found);
                },
                iter: 60,
                threads: 1
            );
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
        Assert.Equal(TenThousand.Count, ids.Count);
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

    /// <summary>An exam log with ten thousand exams, and the plain list to compare with.</summary>
    public sealed class TenThousand : IDisposable
    {
        public const int Count = 10_000;
        private readonly DataFolder data = new();
        private readonly List<StoredExam> exams = Enumerable.Range(0, Count).Select(n => Samples.Exam(n)).ToList();

        public TenThousand()
        {
            Store = ExamLogStore.Open(data.Path);
            var upTo = 0L;
            foreach (var batch in exams.Chunk(500))
            {
                Store.Apply(++upTo, new ExamLogChanges { Exams = batch });
            }

            Store.Apply(
                ++upTo,
                new ExamLogChanges { Patients = Enumerable.Range(0, 40).Select(n => Samples.Patient(n)).ToList() }
            );
        }

        public ExamLogStore Store { get; }

        public IEnumerable<StoredExam> Expected(ExamQuery query) =>
            exams
                .Where(exam => query.PatientId is null || exam.PatientId == query.PatientId)
                .Where(exam => query.Status is null || exam.Status == query.Status)
                .Where(exam => query.OpenedFrom is null || exam.OpenedAt >= query.OpenedFrom)
                .Where(exam => query.OpenedBefore is null || exam.OpenedAt < query.OpenedBefore)
                .OrderByDescending(exam => exam.OpenedAt)
                .ThenByDescending(exam => exam.Id, StringComparer.Ordinal);

        public void Dispose()
        {
            Store.Dispose();
            data.Dispose();
        }
    }
}
