namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LaneBoardTests : IDisposable
{
    private readonly LaneScene lane = new();

    [Fact]
    public async Task Without_an_exam_the_board_shows_the_instrument_alone()
    {
        lane.Show(live => live with { BatteryPercent = 71 });

        var board = await lane.LookAsync();

        Assert.Equal(
            (Support.Clinic.Serial, "Quay-A", "connected", 71, null, null),
            (board.Instrument, board.Model, board.Line, board.BatteryPercent, board.Exam, board.Before)
        );
        Assert.Equal(("idle", null, null), (board.Mode, board.Block, board.Trouble));
        Assert.False(board.CanSwitchOff);
    }

    [Fact]
    public async Task An_instrument_that_nobody_knows_has_no_board()
    {
        Assert.Null(await lane.Desk.LookAtLaneAsync("QB-9999", default));
        Assert.Null(await lane.Desk.LookAtLaneAsync("no serial!", default));
    }

    [Fact]
    public async Task An_exam_that_opened_by_itself_has_no_patient_and_says_that_one_is_missing()
    {
        lane.Clinic.MeasureBoth();

        var exam = await lane.ExamAsync();

        Assert.Null(exam.Patient);
        Assert.Equal("Patient (none is named)", exam.Missing[0]);
        Assert.Equal(exam.Missing.Count - 1, exam.MissingSteps.Count);
    }

    [Fact]
    public async Task The_patient_is_shown_with_what_the_clinic_knows_of_the_person()
    {
        await lane.EnterAsync(lane.Clinic.Patient("Q-1001", "A. Pilot", new DateOnly(1980, 5, 6)));
        lane.Clinic.House.WriteLog();
        await lane.Clinic.OpenAsync();

        var patient = (await lane.ExamAsync()).Patient!;

        Assert.Equal(
            ("Q-1001", "A. Pilot", new DateOnly(1980, 5, 6)),
            (patient.Patient, patient.Name, patient.BirthDate)
        );
    }

    [Fact]
    public async Task Steps_sizes_and_judgements_stand_as_recorded()
    {
        var id = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(id, "direct OD 2.5", "direct OS could-not-see", "shape OD round", "shape OS not-round");

        var exam = await lane.ExamAsync();

        Assert.Equal(
            ["sizes-bright", "sizes-dim", "shape", "direct", "swing-short", "swing-long"],
            exam.Steps.Select(step => step.Step)
        );
        Assert.Equal(["done", "done", "done", "done", "due", "not-yet"], exam.Steps.Select(step => step.State));
        Assert.Equal(["OD", "OS"], exam.Steps[5].Eyes);
        Assert.Equal(
            [("OD", "bright", 4.0), ("OD", "dim", 5.0), ("OS", "bright", 4.1), ("OS", "dim", 5.1)],
            exam.Sizes.Select(size => (size.Eye, size.Light!, Math.Round(size.Millimetres, 6)))
        );
        Assert.All(exam.Sizes, size => Assert.True(size.UncertaintyMillimetres > 0 && size.Sequence > 0));
        Assert.Equal(
            ["OD (right) direct 2.5+", "OS (left) direct could not be seen", "OD (right) round", "OS (left) not round"],
            exam.Judgements.Select(judgement => judgement.Words)
        );
        Assert.Equal(["direct", "direct", "shape", "shape"], exam.Judgements.Select(judgement => judgement.Step));
        Assert.Equal(["swing-short", "swing-long"], exam.MissingSteps);
        Assert.Equal(["Swinging, short dwell", "Swinging, long dwell"], exam.Missing);
        Assert.StartsWith("Q-1001", $"{exam.Patient!.Patient}", StringComparison.Ordinal);
        Assert.Contains("OD", exam.ChartLine, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_one_eye_lacks_is_named_for_that_eye_and_what_was_accepted_is_missing_no_more()
    {
        var id = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(id, "shape OD round", "shape OS round", "direct OD 3", "swing short alike");
        Assert.Equal(["Direct response: OS (left)", "Swinging, long dwell"], (await lane.ExamAsync()).Missing);

        await lane.EnterAsync(lane.Clinic.NotExamined(id, (await lane.ExamAsync()).MissingSteps));

        var exam = await lane.ExamAsync();
        Assert.Empty(exam.Missing);
        Assert.Equal(
            ["accepted", "accepted"],
            exam.Steps.Where(s => s.Step is "direct" or "swing-long").Select(s => s.State)
        );
    }

    [Fact]
    public async Task What_holds_of_an_eye_stands_there_by_the_latest_word_about_it()
    {
        var id = await lane.WithEverythingShownAsync();
        Assert.Empty((await lane.ExamAsync()).EyeStatuses);

        foreach (
            var conditions in (string[][])
                [
                    ["drops"],
                    ["prosthesis", "lid-down"],
                ]
        )
        {
            await lane.EnterAsync(lane.Clinic.Status(id, "OS", conditions));
        }

        var status = Assert.Single((await lane.ExamAsync()).EyeStatuses);
        Assert.Equal(("OS", "MK"), (status.Eye, status.Who));
        Assert.Equal(["prosthesis", "lid-down"], status.Conditions);
    }

    public void Dispose() => lane.Dispose();
}
