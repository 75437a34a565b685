using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Desk;

/// <summary>What people do to an exam as a whole.</summary>
public sealed class ExamCourseTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Opening_while_another_exam_is_open_says_which_one_ends()
    {
        var first = await clinic.OpenAsync();

        var second = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(clinic.Opening("Q-1002")));

        Assert.Contains($"Exam {first} (Q-1001) was still open", second.Notice, StringComparison.Ordinal);
        Assert.Equal(ClosingReason.AnotherOpened, clinic.Exam(first).Closing!.Reason);
    }

    [Fact]
    public async Task The_same_entry_sent_again_is_recorded_once_even_where_it_would_be_refused_now()
    {
        var exam = await clinic.OpenAsync(patient: null);
        var attach = clinic.Attaching(exam, "Q-1002");
        var first = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(attach));
        var length = clinic.House.Journal.Count;

        var again = Assert.IsType<EntryOutcome.AlreadyRecorded>(await clinic.EnterAsync(attach));

        Assert.Equal((first.Sequence, first.Exam), (again.Sequence, again.Exam));
        Assert.Equal(length, clinic.House.Journal.Count);
    }

    [Fact]
    public async Task An_exam_that_belongs_to_one_patient_is_not_attached_to_another_but_can_be_moved()
    {
        var exam = await clinic.OpenAsync();
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Attaching(exam, "Q-1002")));
        Assert.Contains("move it instead", refused.Reason, StringComparison.Ordinal);

        await clinic.RecordedAsync(
            new MoveEntry
            {
                EntryId = clinic.NewId(),
                Who = "MK",
                At = clinic.Instrument.Now,
                ProgramVersion = "0.1.0",
                Exam = exam,
                Patient = "Q-1002",
                Reason = "the wrong badge was scanned",
            }
        );
        Assert.Equal("Q-1002", clinic.Exam(exam).Patient!.Value.Value);
    }

    [Fact]
    public async Task Making_ready_says_what_was_left_out_and_accepting_it_silences_that()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        var accepted = await clinic.RecordedAsync(
            clinic.NotExamined(exam, ["sizes-dim", "shape", "direct", "swing-short", "swing-long"])
        );
        Assert.Null(accepted.Notice);

        var ready = await clinic.RecordedAsync(clinic.Ready(exam));

        Assert.Contains("sizes-bright", ready.Notice, StringComparison.Ordinal);
        Assert.DoesNotContain("swing", ready.Notice, StringComparison.Ordinal);
        Assert.Equal(ExamStatus.ReadyForReview, clinic.Exam(exam).Status);
    }

    [Fact]
    public async Task What_belongs_to_another_person_is_split_off_as_an_exam_of_its_own()
    {
        var exam = await clinic.OpenAsync();
        clinic.MeasureBoth();
        var border = clinic.House.Journal.Count + 1;
        clinic.MeasureBoth(right: 5_000, left: 5_100);
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Idle));

        var split = await clinic.RecordedAsync(Splitting(exam, border));
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Splitting(exam, 4711)));

        Assert.Equal(split.Sequence, split.Exam);
        Assert.Equal(2, clinic.Exam(exam).Captures.Count);
        Assert.Equal(2, clinic.Exam(split.Exam!.Value).Captures.Count);
        Assert.Null(clinic.Exam(split.Exam.Value).Patient);
        Assert.Contains("not within the exam", refused.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_exam_that_was_set_aside_takes_no_judgement_and_is_not_made_ready()
    {
        var exam = await clinic.OpenAsync();
        clinic.MeasureBoth();
        await clinic.RecordedAsync(clinic.SettingAside(exam, "drops had been put in"));

        var judgement = await clinic.EnterAsync(clinic.Judging(exam, "shape OD round"));
        var ready = await clinic.EnterAsync(clinic.Ready(exam));

        Assert.Contains("set aside", Assert.IsType<EntryOutcome.Refused>(judgement).Reason, StringComparison.Ordinal);
        Assert.Contains("set aside", Assert.IsType<EntryOutcome.Refused>(ready).Reason, StringComparison.Ordinal);
        Assert.Equal(ExamStatus.SetAside, clinic.Exam(exam).Status);
    }

    public void Dispose() => clinic.Dispose();

    private SplitEntry Splitting(long exam, long from) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "MK",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            From = from,
            Reason = "the next patient sat down already",
        };
}
