using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class ExamSearchTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Pages_together_find_every_exam_that_fits_and_no_other()
    {
        var exams = new List<(long Exam, string Patient, string Who)>();
        for (var n = 0; n < 300; n++)
        {
            var (patient, who) = ($"Q-{1001 + (n % 7)}", n % 3 == 0 ? "MK" : "JB");
            var opened = await clinic.EnterAsync(clinic.Opening(patient) with { Who = who });
            exams.Add((Assert.IsType<EntryOutcome.Recorded>(opened).Exam!.Value, patient, who));
            clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
            clinic.House.Add(clinic.Instrument.Mark(Eye.Right, 4_000));
        }

        clinic.House.WriteLog();
        clinic.House.Add(clinic.Instrument.Mark(Eye.Left, 4_000));
        exams.Reverse();

        Assert.Equal(exams.Select(e => e.Exam), await AllAsync(new ExamSearch { Limit = 37 }));
        Assert.Equal(
            exams.Where(e => e.Patient == "Q-1003").Select(e => e.Exam),
            await AllAsync(new ExamSearch { Limit = 10, Patient = "Q-1003" })
        );
        Assert.Equal(
            exams.Where(e => e.Who == "MK").Select(e => e.Exam),
            await AllAsync(new ExamSearch { Limit = 10, Examiner = " mk " })
        );
        Assert.Equal(
            exams.Where(e => e is { Who: "MK", Patient: "Q-1002" }).Select(e => e.Exam),
            await AllAsync(
                new ExamSearch
                {
                    Limit = 3,
                    Examiner = "MK",
                    Patient = "Q-1002",
                    Status = "open",
                }
            )
        );
        Assert.Empty(await AllAsync(new ExamSearch { Status = "signed" }));
    }

    [Fact]
    public async Task Exams_are_found_by_what_was_found_in_them()
    {
        var poor = await clinic.ExamineAsync("Q-1001", directOd: "1");
        var unequal = await clinic.ReadyExamAsync("Q-1002", right: 6_000);
        var again = await clinic.ReadyExamAsync("Q-1002", right: 6_000);
        var plain = await clinic.ReadyExamAsync("Q-1003");
        var running = await clinic.ExamineAsync("Q-1004", swing: "worse OD");
        clinic.House.WriteLog();

        Assert.Equal([again, unequal], await AllAsync(new ExamSearch { Finding = "anisocoria" }));
        Assert.Equal([poor], await AllAsync(new ExamSearch { Finding = "poor-direct" }));
        Assert.Equal([running], await AllAsync(new ExamSearch { Finding = "swing-asymmetry" }));
        Assert.Equal([running, unequal, poor], await AllAsync(new ExamSearch { Finding = "before-drops" }));
        Assert.Equal([plain, again, unequal], await AllAsync(new ExamSearch { Status = "ready-for-review" }));
        Assert.DoesNotContain(plain, await AllAsync(new ExamSearch { Finding = "incomplete" }));
    }

    [Fact]
    public async Task Exams_are_found_by_when_they_opened_with_the_patients_name()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1002", "A. Pilot"));
        await clinic.ReadyExamAsync("Q-1001");
        var from = clinic.Instrument.Now;
        var middle = await clinic.ReadyExamAsync("Q-1002");
        var before = clinic.Instrument.Now;
        await clinic.ReadyExamAsync("Q-1003");
        clinic.House.WriteLog();

        var found = Assert.Single(
            (
                await clinic.Records.SearchExamsAsync(
                    new ExamSearch { OpenedFrom = from, OpenedBefore = before },
                    default
                )
            ).Exams
        );

        Assert.Equal((middle, "A. Pilot"), (found.Summary.Exam, found.PatientName));
    }

    [Theory]
    [InlineData("brilliant", null, 50, "'brilliant' is no finding; give one of: anisocoria, not-round")]
    [InlineData(
        null,
        "done",
        50,
        "'done' is no status; give one of: open, ready-for-review, signed, amended, set-aside."
    )]
    [InlineData(null, null, 0, "1 to 500")]
    public async Task A_search_for_what_is_none_is_explained(string? finding, string? status, int limit, string words)
    {
        var search = new ExamSearch
        {
            Finding = finding,
            Status = status,
            Limit = limit,
        };

        var problem = await Assert.ThrowsAsync<EntryProblemException>(() =>
            clinic.Records.SearchExamsAsync(search, default)
        );

        Assert.Contains(words, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Patients_are_found_by_number_and_by_words_of_their_name()
    {
        await clinic.CountsAsync(
            clinic.Patient("Q-1001", "Alda Pilot"),
            clinic.Patient("Q-1002", "Bert Crane"),
            clinic.Patient("Q-2001", null)
        );
        clinic.House.WriteLog();

        Assert.Equal(["Q-1001", "Q-1002"], await FindAsync("q-10"));
        Assert.Equal(["Q-1002"], await FindAsync("cra"));
        Assert.Equal(["Q-1001", "Q-1002", "Q-2001"], await FindAsync(" "));
        Assert.Empty(await FindAsync("rane"));
    }

    public void Dispose() => clinic.Dispose();

    private async Task<IEnumerable<string>> FindAsync(string text) =>
        (await clinic.Records.FindPatientsAsync(text, null, 50, default)).Patients.Select(patient => patient.Patient);

    private async Task<List<long>> AllAsync(ExamSearch search)
    {
        var all = new List<long>();
        string? after = null;
        do
        {
            var page = await clinic.Records.SearchExamsAsync(search with { After = after }, default);
            Assert.True(page.Exams.Count <= search.Limit);
            all.AddRange(page.Exams.Select(exam => exam.Summary.Exam));
            after = page.Next;
        } while (after is not null);

        return all;
    }
}
