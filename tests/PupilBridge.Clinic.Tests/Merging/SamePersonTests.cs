using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Tests.Merging;

/// <summary>What is read of a patient follows a merging while it stands, though no exam moves.</summary>
public sealed class SamePersonTests : IDisposable
{
    private static readonly DateOnly Born = new(1980, 5, 17);
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Visits_of_both_numbers_stand_side_by_side_under_either()
    {
        var (first, second) = await TwoVisitsAsync();

        foreach (var number in new[] { "Q-1001", "Q-1002" })
        {
            var history = await clinic.Records.HistoryAsync(number, 50, default);
            Assert.Equal([second, first], history.Visits.Select(visit => visit.Exam.Exam));
            Assert.Equal(["Q-1002", "Q-1001"], history.Visits.Select(visit => visit.Exam.Patient));
            var merging = Assert.Single(history.Mergings);
            Assert.Equal(("Q-1001", "Q-1002", "DR"), (merging.Kept, merging.Merged, merging.Who));
            Assert.Contains(
                history.Visits[0].Changes,
                change => change is { Criterion: "anisocoria-clinical", To: "met" }
            );
            Assert.Equal(
                [second, first],
                (await clinic.Records.SearchExamsAsync(new ExamSearch { Patient = number }, default)).Exams.Select(e =>
                    e.Summary.Exam
                )
            );
            Assert.Equal(
                [second, first],
                (await clinic.Desk.ListExamsAsync(new ExamListRequest { Patient = number }, default)).Exams.Select(e =>
                    e.Exam
                )
            );
        }
    }

    [Fact]
    public async Task Pages_go_through_the_exams_of_both_numbers()
    {
        var (first, second) = await TwoVisitsAsync();
        var page = await clinic.Records.SearchExamsAsync(new ExamSearch { Patient = "Q-1001", Limit = 1 }, default);
        Assert.Equal(second, Assert.Single(page.Exams).Summary.Exam);
        page = await clinic.Records.SearchExamsAsync(
            new ExamSearch
            {
                Patient = "Q-1001",
                Limit = 1,
                After = page.Next,
            },
            default
        );
        Assert.Equal(first, Assert.Single(page.Exams).Summary.Exam);
    }

    [Fact]
    public async Task What_changed_since_the_visit_before_is_seen_across_both_numbers()
    {
        var (_, second) = await TwoVisitsAsync();
        Assert.Contains(
            (await clinic.RecordAsync(second)).Exam.Findings,
            finding => finding.Criterion == "anisocoria-changed" && finding.Verdict is not "not-examined"
        );

        await clinic.CountsAsync(clinic.Parting("Q-1002"));
        Assert.DoesNotContain(
            (await clinic.RecordAsync(second)).Exam.Findings,
            finding => finding.Criterion == "anisocoria-changed" && finding.Verdict is not "not-examined"
        );
    }

    [Fact]
    public async Task An_exam_keeps_its_number_and_what_leaves_the_house_names_both()
    {
        var (first, second) = await TwoVisitsAsync();
        Assert.Equal("Q-1002", clinic.Exam(second).Patient!.Value.Value);

        var out2 = (await clinic.Records.ShowOutgoingAsync(second, null, default))!;
        Assert.Equal("Q-1002", out2.Record.Patient);
        Assert.Equal(
            ("Q-1002", "Q-1001", Born),
            (out2.Patient!.Patient, out2.Patient.MergedInto, out2.Patient.BirthDate)
        );
        var out1 = (await clinic.Records.ShowOutgoingAsync(first, null, default))!;
        Assert.Equal(("Q-1001", null), (out1.Patient!.Patient, out1.Patient.MergedInto));
    }

    [Fact]
    public async Task Both_are_found_and_the_merged_one_says_so()
    {
        await TwoVisitsAsync();
        var found = await clinic.Records.FindPatientsAsync("q-10", null, 50, default);
        Assert.Equal(
            [("Q-1001", null), ("Q-1002", "Q-1001")],
            found.Patients.Select(patient => (patient.Patient, patient.MergedInto))
        );
        // Each number keeps what was entered under it, so that a correction corrects that and nothing else.
        Assert.Null((await clinic.Records.ShowPatientAsync("Q-1002", default))!.BirthDate);
    }

    [Fact]
    public async Task A_merged_number_at_the_lane_gives_the_one_that_goes_on_and_says_so()
    {
        await TwoVisitsAsync();
        var opened = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(clinic.Opening("Q-1002")));
        Assert.Contains("Q-1002 is merged into Q-1001", opened.Notice, StringComparison.Ordinal);
        Assert.Equal("Q-1001", clinic.Exam(opened.Exam!.Value).Patient!.Value.Value);

        var nobodys = await clinic.OpenAsync(null);
        var attached = Assert.IsType<EntryOutcome.Recorded>(
            await clinic.EnterAsync(
                new AttachEntry
                {
                    EntryId = clinic.NewId(),
                    Who = "MK",
                    At = clinic.Instrument.Now,
                    ProgramVersion = "0.1.0",
                    Exam = nobodys,
                    Patient = "Q-1002",
                }
            )
        );
        Assert.Contains("Q-1002 is merged into Q-1001", attached.Notice, StringComparison.Ordinal);
        Assert.Equal("Q-1001", clinic.Exam(nobodys).Patient!.Value.Value);
    }

    [Fact]
    public async Task The_days_list_finds_the_exam_under_the_other_number()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", null), clinic.Patient("Q-1002", null));
        await clinic.CountsAsync(
            new DayListEntry
            {
                EntryId = clinic.NewId(),
                Who = "MK",
                At = clinic.Instrument.Now,
                ProgramVersion = "0.1.0",
                Day = new DateOnly(2026, 3, 2),
                Lines = [new DayListLine("Q-1002", "08:00")],
                Source = "today.csv",
            },
            clinic.Merging("Q-1001", "Q-1002")
        );
        var exam = await clinic.OpenAsync("Q-1002");

        var item = Assert.Single((await clinic.Records.DayListAsync(new DateOnly(2026, 3, 2), default)).Items);
        Assert.Equal("Q-1001", item.Patient.MergedInto);
        Assert.Equal(exam, item.Exam!.Exam);
    }

    [Fact]
    public async Task A_signed_record_stays_byte_for_byte_as_it_was_signed()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", null, Born), clinic.Patient("Q-1002", null));
        var exam = await clinic.ReadyExamAsync("Q-1002");
        var digest = (await clinic.RecordAsync(exam)).DraftDigest;
        await clinic.CountsAsync(clinic.Signature(exam, digest));
        var before = (await clinic.RecordAsync(exam)).SignedVersions.Single();

        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002"));

        Assert.Equal(before, (await clinic.RecordAsync(exam)).SignedVersions.Single());
        Assert.Equal("Q-1002", (await clinic.RecordAsync(exam)).Patient!.Patient);
    }

    public void Dispose() => clinic.Dispose();

    /// <summary>One visit under each number, the second with unequal pupils; then the numbers are merged.</summary>
    private async Task<(long First, long Second)> TwoVisitsAsync()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", "A. Pilot", Born), clinic.Patient("Q-1002", "A. Pilott"));
        var first = await clinic.ReadyExamAsync("Q-1001");
        var second = await clinic.ReadyExamAsync("Q-1002", right: 4_000, left: 6_500);
        clinic.House.WriteLog();
        await clinic.CountsAsync(clinic.Merging("Q-1001", "Q-1002"));
        return (first, second);
    }
}
