using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Showing;

public sealed class ExamViewTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task Sizes_stand_beside_their_raw_readings_and_earlier_ones_are_kept()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth(right: 4_000, left: 4_100);
        clinic.House.Add(clinic.Instrument.Mark(Eye.Right, 4_200));

        var sizes = (await clinic.Desk.ShowExamAsync(exam, default))!.Sizes;

        Assert.Equal(["OD", "OS", "OD"], sizes.Select(size => size.Eye));
        Assert.Equal([false, false, true], sizes.Select(size => size.IsSuperseded));
        // A diameter is the difference of a scale's two readings (common practice, no source).
        Assert.Equal([4.2, 4.1, 4.0], sizes.Select(size => Math.Round(size.Millimetres, 9)));
        Assert.Equal((5_000, 9_200), (sizes[0].NasalMicrometres, sizes[0].TemporalMicrometres));
        Assert.All(sizes, size => Assert.False(size.IsCalibrated));
        Assert.All(sizes, size => Assert.Equal("bright", size.Light));
        Assert.All(sizes, size => Assert.True(size.UncertaintyMillimetres > 0));
    }

    [Fact]
    public async Task A_size_without_a_light_that_was_said_claims_none()
    {
        var exam = await clinic.OpenAsync();
        clinic.MeasureBoth();

        var view = (await clinic.Desk.ShowExamAsync(exam, default))!;

        Assert.All(view.Sizes, size => Assert.Null(size.Light));
        Assert.Contains("not examined", view.Chart.Line, StringComparison.Ordinal);
        Assert.Contains(view.AskedFor.Reminders, words => words.Contains("bright or dim", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_chart_has_one_line_and_a_block_with_right_above_left()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth();

        var chart = (await clinic.Desk.ChartAsync(exam, default))!;

        Assert.DoesNotContain('\n', chart.Line);
        var lines = chart.Block.Split('\n');
        var right = Array.FindIndex(lines, line => line.StartsWith("OD", StringComparison.Ordinal));
        Assert.StartsWith("OS", lines[right + 1], StringComparison.Ordinal);
        Assert.Contains("4.0", lines[right], StringComparison.Ordinal);
        Assert.Contains("no diagnosis", chart.Block, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stimuli_tell_their_dwell_by_the_instruments_own_ticks()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.DirectBlock());
        clinic.House.Add(clinic.Instrument.Light(Eye.Right, 1400, 3000));

        var stimuli = (await clinic.Desk.ShowExamAsync(exam, default))!.Stimuli;

        Assert.Equal(7, stimuli.Count);
        Assert.All(
            stimuli.Take(6),
            stimulus => Assert.Equal((1000L, "within"), (stimulus.DwellMilliseconds!.Value, stimulus.Timing))
        );
        Assert.Equal((1400L, "too-long"), (stimuli[6].DwellMilliseconds!.Value, stimuli[6].Timing));
    }

    [Fact]
    public async Task An_exam_that_ended_says_why()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        clinic.House.Add(clinic.Instrument.SwitchOff());

        var view = (await clinic.Desk.ShowExamAsync(exam, default))!;

        Assert.Equal("switched-off", view.Closing!.Reason);
        Assert.Equal("open", view.Summary.Status);
    }

    [Fact]
    public async Task There_is_no_view_of_an_exam_that_does_not_exist()
    {
        Assert.Null(await clinic.Desk.ShowExamAsync(4711, default));
        Assert.Null(await clinic.Desk.ChartAsync(-1, default));
        Assert.Null(await clinic.Desk.AskedForAsync(0, default));
    }

    [Fact]
    public async Task Everything_shown_survives_being_sent_as_json()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth();
        clinic.House.Add(clinic.Instrument.DirectBlock());
        await clinic.EnterAsync(clinic.Judging(exam, "direct OD 3"));

        var view = (await clinic.Desk.ShowExamAsync(exam, default))!;
        var json = System.Text.Json.JsonSerializer.Serialize(view, ClinicJson.Default.ExamView);
        var back = System.Text.Json.JsonSerializer.Deserialize(json, ClinicJson.Default.ExamView)!;

        Assert.Equal(json, System.Text.Json.JsonSerializer.Serialize(back, ClinicJson.Default.ExamView));
        Assert.Equal(view.Sizes, back.Sizes);
        Assert.Equal(view.Judgements, back.Judgements);
    }

    public void Dispose() => clinic.Dispose();
}
