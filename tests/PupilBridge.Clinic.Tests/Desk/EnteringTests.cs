using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Desk;

public sealed class EnteringTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task A_patient_is_recorded_and_listed()
    {
        var outcome = await clinic.EnterAsync(clinic.Patient("Q-1001", "A. Pilot", new DateOnly(1980, 5, 17)));
        clinic.House.WriteLog();

        var recorded = Assert.IsType<EntryOutcome.Recorded>(outcome);
        Assert.Equal(clinic.House.Journal.Count, recorded.Sequence);
        Assert.Null(recorded.Exam);
        var patient = Assert.Single((await clinic.Desk.ListPatientsAsync(null, 50, default)).Patients);
        Assert.Equal(
            ("Q-1001", "A. Pilot", new DateOnly(1980, 5, 17)),
            (patient.Patient, patient.Name, patient.BirthDate!.Value)
        );
    }

    [Fact]
    public async Task An_exam_is_named_by_its_entry_and_belongs_to_the_patient()
    {
        var outcome = Assert.IsType<EntryOutcome.Recorded>(await clinic.EnterAsync(clinic.Opening()));

        Assert.Equal(outcome.Sequence, outcome.Exam);
        Assert.Equal("Q-1001", clinic.Exam(outcome.Exam!.Value).Patient!.Value.Value);
        Assert.Contains("No patient Q-1001 has been entered yet", outcome.Notice, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_instrument_that_was_never_met_is_refused_with_those_that_were()
    {
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Opening(serial: "QA-0007")));

        Assert.Equal("Instrument QA-0007 has never been met here.", refused.Reason);
        Assert.Contains("QA-0001", refused.NextStep, StringComparison.Ordinal);
        Assert.DoesNotContain(clinic.House.Journal, entry => entry is PersonEntry);
    }

    [Fact]
    public async Task Light_fixation_and_eye_status_are_recorded_with_their_exam()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));

        await clinic.RecordedAsync(clinic.Light(exam, "dim"));
        await clinic.RecordedAsync(clinic.Fixation(exam, "near"));
        await clinic.RecordedAsync(clinic.Status(exam, "OS", ["drops", "opaque-cornea"]));

        var now = clinic.Exam(exam);
        Assert.Equal(RoomLight.Dim, now.Light[^1].Light);
        Assert.Equal(Fixation.Near, now.Fixations[^1].Fixation);
        Assert.Equal(EyeConditions.Drops | EyeConditions.OpaqueCornea, Assert.Single(now.EyeStatuses).Conditions);
        var view = (await clinic.Desk.ShowExamAsync(exam, default))!;
        Assert.Equal(["drops", "opaque-cornea"], Assert.Single(view.EyeStatuses).Conditions);
    }

    [Fact]
    public async Task Light_after_the_exam_ended_is_refused()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.SwitchOff());

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Light(exam, "dim")));

        Assert.Contains("only while the exam takes events", refused.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_exam_that_does_not_exist_is_refused()
    {
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Light(4711, "dim")));

        Assert.Equal("There is no exam 4711.", refused.Reason);
    }

    [Fact]
    public async Task A_note_can_be_taken_back_and_something_that_is_not_there_cannot()
    {
        var exam = await clinic.OpenAsync();
        var note = clinic.Note(exam, "patient wears sunglasses");
        await clinic.RecordedAsync(note);

        await clinic.RecordedAsync(clinic.Withdrawing(exam, note.EntryId));
        var refused = Assert.IsType<EntryOutcome.Refused>(
            await clinic.EnterAsync(clinic.Withdrawing(exam, clinic.NewId()))
        );

        Assert.False(Assert.Single((await clinic.Desk.ShowExamAsync(exam, default))!.Notes).Counts);
        Assert.Contains("nothing to take back", refused.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task While_the_exams_are_made_anew_nothing_is_taken_and_nothing_is_shown_as_missing()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.ExamsWaitFor = "The exams are being made anew.";

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Light(exam, "dim")));
        var problem = await Assert.ThrowsAsync<EntryProblemException>(() => clinic.Desk.ShowExamAsync(exam, default));

        Assert.Equal("The exams are being made anew.", refused.Reason);
        Assert.Equal("The exams are being made anew.", problem.Message);
    }

    [Theory]
    [InlineData("id", "no id of an entry")]
    [InlineData("who", "Initials or a sign-in name must have 1 to 64 characters")]
    [InlineData("light", "'twilight' is no room light; give one of: bright, dim.")]
    [InlineData("exam", "0 is no number of an exam")]
    [InlineData("version", "The program version is missing")]
    public async Task Every_value_that_is_none_is_refused_with_what_is_possible(string which, string expected)
    {
        var good = clinic.Light(await clinic.OpenAsync(), "dim");
        var bad = which switch
        {
            "id" => good with { EntryId = "7" },
            "who" => good with { Who = "" },
            "light" => good with { Light = "twilight" },
            "exam" => good with { Exam = 0 },
            _ => good with { ProgramVersion = " " },
        };

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(bad));

        Assert.Contains(expected, refused.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(refused.NextStep);
    }

    [Fact]
    public async Task Nothing_remarkable_does_not_stand_beside_something()
    {
        var exam = await clinic.OpenAsync();

        var refused = Assert.IsType<EntryOutcome.Refused>(
            await clinic.EnterAsync(clinic.Status(exam, "OD", ["nothing-remarkable", "drops"]))
        );
        await clinic.RecordedAsync(clinic.Status(exam, "OD", ["nothing-remarkable"]));

        Assert.Contains("cannot stand beside", refused.Reason, StringComparison.Ordinal);
        Assert.Equal(EyeConditions.None, Assert.Single(clinic.Exam(exam).EyeStatuses).Conditions);
    }

    public void Dispose() => clinic.Dispose();
}
