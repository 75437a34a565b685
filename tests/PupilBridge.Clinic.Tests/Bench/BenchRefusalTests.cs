using PupilBridge.Clinic.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Bench;

/// <summary>What the bench does not take, each with words, and with what was measured kept.</summary>
public sealed class BenchRefusalTests : IDisposable
{
    private static readonly PerEye<(double Offset, double Gain)> Straight = new() { Right = (0, 1), Left = (0, 1) };
    private readonly Support.Clinic clinic = new();

    public void Dispose() => clinic.Dispose();

    [Theory]
    [InlineData(0, "At least three discs")]
    [InlineData(1, "same name")]
    [InlineData(2, "diameters are in millimetres")]
    [InlineData(3, "All diameters are the same")]
    [InlineData(4, "expires before")]
    [InlineData(5, "standard uncertainties in millimetres")]
    public async Task A_set_of_discs_that_can_calibrate_nothing_is_refused(int fault, string words)
    {
        DiscLine[] good = [new("a", 2, 0.002), new("b", 4, 0.002), new("c", 6, 0.002)];
        var set = clinic.Discs();
        set = fault switch
        {
            0 => set with { Discs = good[..2] },
            1 => set with { Discs = [good[0], good[1], good[2] with { Name = "a" }] },
            2 => set with { Discs = [good[0], good[1], good[2] with { DiameterMillimetres = 6000 }] },
            3 => set with { Discs = [.. good.Select(disc => disc with { DiameterMillimetres = 4 })] },
            4 => set with { Discs = good, Expires = new DateOnly(2025, 1, 1) },
            _ => set with { Discs = [good[0], good[1], good[2] with { StandardUncertaintyMillimetres = 6.1 }] },
        };

        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(set));

        Assert.Contains(words, refused.Reason, StringComparison.Ordinal);
        Assert.Empty(clinic.House.Book.DiscSets);
    }

    [Fact]
    public async Task A_run_needs_discs_that_are_certified_and_enough_of_them()
    {
        await RefusedAsync(clinic.Begin("calibration"), "no set of discs");
        await clinic.CountsAsync(clinic.Discs(expires: new DateOnly(2026, 3, 1)));
        await RefusedAsync(clinic.Begin("calibration"), "expired on 2026-03-01");
        await clinic.CountsAsync(clinic.Discs());
        await RefusedAsync(clinic.Begin("calibration") with { Discs = ["D1", "D2"] }, "At least 3 discs");
        await RefusedAsync(clinic.Begin("calibration") with { Discs = ["D1", "D2", "D9"] }, "'D9' is no disc");
        await RefusedAsync(clinic.Begin("calibration", repeats: 1), "at least 2 times");
        await RefusedAsync(clinic.Begin("calibration", repeats: 99), "1 to 20 repeats");
        await RefusedAsync(clinic.Begin("calibration") with { TemperatureCelsius = 200 }, "temperature in °C");
        await RefusedAsync(clinic.Begin("calibration") with { Instrument = "QZ-9" }, "never been met");
        await RefusedAsync(clinic.Begin("polishing"), "give one of");
    }

    [Fact]
    public async Task A_disc_wider_than_the_scale_goes_is_refused_before_anything_is_measured()
    {
        using var small = new Support.Clinic();
        small.House.Add(small.Instrument.Met(highest: 7_500));
        await small.CountsAsync(small.Discs());

        var refused = Assert.IsType<EntryOutcome.Refused>(await small.EnterAsync(small.Begin("calibration")));

        Assert.Contains(
            "Disc D6 of 7.999 mm is wider than the scale goes (7.5 mm)",
            refused.Reason,
            StringComparison.Ordinal
        );
        await small.CountsAsync(small.Begin("calibration") with { Discs = ["D1", "D2", "D3"] });
    }

    [Fact]
    public async Task A_run_does_not_end_the_exam_that_somebody_is_at()
    {
        await clinic.CountsAsync(clinic.Discs());
        var exam = await clinic.OpenAsync();
        await RefusedAsync(clinic.Begin("calibration"), $"Exam {exam} is open");
        Assert.True(clinic.Exam(exam).TakesEvents);
    }

    [Fact]
    public async Task Two_runs_on_one_instrument_do_not_go_at_once()
    {
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration"))).Exam!.Value;
        await RefusedAsync(clinic.Begin("timing"), $"Run {run} is open");
    }

    [Fact]
    public async Task A_stuck_scale_gives_no_certificate_and_what_was_measured_is_kept()
    {
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration", 2))).Exam!.Value;
        var view = await clinic.FollowAsync(run, new() { Right = (4, 0), Left = (0, 1) });
        await clinic.CountsAsync(clinic.End(run));

        var draft = (await clinic.Bench.DraftCertificateAsync(run, default))!;

        Assert.Null(draft.Text);
        Assert.Contains("the scale is stuck", draft.Obstacle, StringComparison.Ordinal);
        Assert.Equal(24, view.Done);
        await RefusedAsync(clinic.Issue(run, "00"), "stuck");
    }

    [Fact]
    public async Task A_run_given_up_keeps_its_readings_and_its_reason()
    {
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration"))).Exam!.Value;
        await clinic.FollowAsync(run, Straight, most: 5);
        await RefusedAsync(clinic.End(run, isFinished: false), "reason");
        await clinic.CountsAsync(clinic.End(run, isFinished: false, reason: "holder broke"));

        var view = (await clinic.Bench.ShowRunAsync(run, default))!;

        Assert.Equal(("given-up", "holder broke", 5, null), (view.Line.State, view.Why, view.Done, view.Asked));
    }

    [Fact]
    public async Task A_run_is_shown_nowhere_as_an_exam_of_a_patient()
    {
        var exam = await clinic.ReadyExamAsync();
        await clinic.CalibrateAsync(Straight);
        var run = (await clinic.RecordedAsync(clinic.Begin("quick-check"))).Exam!.Value;
        await clinic.FollowAsync(run, Straight);
        clinic.House.WriteLog();

        Assert.Equal([exam], (await clinic.Desk.ListExamsAsync(new(), default)).Exams.Select(one => one.Exam));
        Assert.Equal(
            [exam],
            (await clinic.Records.SearchExamsAsync(new(), default)).Exams.Select(one => one.Summary.Exam)
        );
        Assert.Equal(
            [exam],
            (await clinic.Records.ListForReviewAsync(null, 50, default)).Exams.Select(one => one.Summary.Exam)
        );
        Assert.Null(await clinic.Records.ShowRecordAsync(run, default));
        Assert.Null(await clinic.Desk.ShowExamAsync(run, default));
        Assert.Null(await clinic.Desk.ChartAsync(run, default));
        Assert.Null(await clinic.Records.ShowOutgoingAsync(run, null, default));
        await RefusedAsync(clinic.Judging(run, "direct OD 3"), "run on the bench");
        await RefusedAsync(clinic.End(exam), "exam of a patient");
    }

    private async Task RefusedAsync(DeskEntry entry, string words)
    {
        var before = clinic.House.Journal.Count;
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(entry));
        Assert.Contains(words, refused.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(refused.NextStep);
        Assert.Equal(before, clinic.House.Journal.Count);
    }
}
