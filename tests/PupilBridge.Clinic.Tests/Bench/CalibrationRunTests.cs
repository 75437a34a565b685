using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Bench;

/// <summary>A calibration from the discs to the exams that it corrects, as a technician goes through it at the desk.</summary>
public sealed class CalibrationRunTests : IDisposable
{
    // The right scale reads 30 µm and 1 % too much, the left one 20 µm and 0.5 % too little.
    private static readonly PerEye<(double Offset, double Gain)> Error = new()
    {
        Right = (0.030, 1.010),
        Left = (-0.020, 0.995),
    };

    private readonly Support.Clinic clinic = new();

    public void Dispose() => clinic.Dispose();

    [Fact]
    public async Task What_was_put_into_the_scales_comes_out_within_its_own_uncertainty()
    {
        await clinic.CalibrateAsync(Error);

        var view = (await clinic.Bench.ShowCertificateAsync(1, default))!;
        var certificate = CertificateText.Read(view.Text);
        Assert.DoesNotContain("isDraft", view.Text, StringComparison.Ordinal);
        foreach (var eye in EyeFacts.Both)
        {
            var (offset, gain) = Error[eye];
            var line = certificate.Scales[eye].Line;
            // indicated = gain·d + offset, so the correction is (d − offset)/gain − d.
            var slope = (1 / gain) - 1;
            var atD0 = ((line.D0 - offset) / gain) - line.D0;
            Assert.InRange(line.Y2, slope - (2.5 * line.UncertaintyOfY2), slope + (2.5 * line.UncertaintyOfY2));
            Assert.InRange(line.Y1, atD0 - (2.5 * line.UncertaintyOfY1), atD0 + (2.5 * line.UncertaintyOfY1));
            Assert.InRange(line.UncertaintyOfY1, 0.0005, 0.01);
        }

        Assert.Equal("TB", certificate.IssuedBy);
        Assert.Equal("QA-0001", certificate.Instrument.Serial);
        Assert.Equal("no draught", certificate.Run.Conditions);
        Assert.Equal(36, certificate.Scales.Right.Readings.Count + certificate.Scales.Left.Readings.Count);
    }

    [Fact]
    public async Task It_corrects_exams_that_open_afterwards_and_no_other()
    {
        var before = await clinic.ReadyExamAsync();
        await clinic.CalibrateAsync(Error);
        var after = await clinic.ReadyExamAsync(right: 4_070, left: 3_960);

        var old = PupilSizes.Of(clinic.Exam(before), Eye.Right, RoomLight.Bright)!.Diameter;
        Assert.Equal((4.000, false), (old.Millimetres, old.IsCalibrated));
        Assert.Null(clinic.Exam(before).Calibration);

        Assert.Equal(1, clinic.Exam(after).Calibration!.Number);
        foreach (var eye in EyeFacts.Both)
        {
            // Both scales were at a pupil of 4.00 mm.
            var now = PupilSizes.Of(clinic.Exam(after), eye, RoomLight.Bright)!.Diameter;
            Assert.True(now.IsCalibrated);
            Assert.InRange(now.Millimetres, 3.99, 4.01);
        }

        var shown = (await clinic.Desk.ShowExamAsync(after, default))!.Sizes;
        Assert.NotEmpty(shown);
        Assert.All(
            shown.Where(size => size.Light == "bright"),
            size =>
            {
                Assert.True(size.IsCalibrated);
                Assert.InRange(size.Millimetres, 3.99, 4.01);
            }
        );
    }

    [Fact]
    public async Task What_if_shows_earlier_exams_under_it_and_changes_none()
    {
        var before = await clinic.ReadyExamAsync(right: 4_070, left: 3_960);
        await clinic.CalibrateAsync(Error);
        clinic.House.WriteLog();
        var journal = clinic.House.Journal.Count;

        var page = await clinic.Bench.WhatIfAsync(new() { Certificate = 1 }, default);

        var exam = Assert.Single(page.Exams);
        Assert.Equal((before, null), (exam.Exam, exam.Calibration));
        var right = exam.Sizes.Single(size => size is { Eye: "OD", Light: "bright" });
        Assert.Equal(4.070, right.NowMillimetres, 9);
        Assert.InRange(right.ThenMillimetres, 3.99, 4.01);
        Assert.Equal(journal, clinic.House.Journal.Count);
        Assert.Null(clinic.Exam(before).Calibration);
    }

    [Fact]
    public async Task A_reading_set_aside_is_asked_for_again_and_stays_on_the_certificate_with_its_reason()
    {
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration", 3))).Exam!.Value;
        await clinic.FollowAsync(run, Error, most: 10);
        var first = (await clinic.Bench.ShowRunAsync(run, default))!.Readings[0];
        Assert.Equal(36, (await clinic.Bench.ShowRunAsync(run, default))!.ToCome + 10);

        await clinic.CountsAsync(clinic.Aside(run, first.Reading));
        var view = await clinic.FollowAsync(run, Error);

        Assert.Equal((36, 37), (view.Done, view.Readings.Count));
        Assert.Equal(
            ("set-aside", "slipped", "TB"),
            (view.Readings[0].State, view.Readings[0].Reason, view.Readings[0].Who)
        );
        Assert.Equal((first.Eye, first.Disc), (view.Readings[^1].Eye, view.Readings[^1].Disc));
        await clinic.CountsAsync(clinic.End(run));
        var draft = (await clinic.Bench.DraftCertificateAsync(run, default))!;
        Assert.Contains("\"reason\":\"slipped\"", draft.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_what_was_seen_is_issued_and_only_once()
    {
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration", 3))).Exam!.Value;
        await clinic.FollowAsync(run, Error);
        var early = (await clinic.Bench.DraftCertificateAsync(run, default))!;
        Assert.Null(early.Text);
        Assert.Contains("not finished", early.Obstacle, StringComparison.Ordinal);
        await clinic.CountsAsync(clinic.End(run));
        var draft = (await clinic.Bench.DraftCertificateAsync(run, default))!;
        Assert.True(CertificateText.Read(draft.Text!).IsDraft);
        var seen = draft.Digest;

        await clinic.CountsAsync(
            clinic.Aside(run, (await clinic.Bench.ShowRunAsync(run, default))!.Readings[0].Reading)
        );
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Issue(run, seen)));
        Assert.Contains("not what was looked at", refused.Reason, StringComparison.Ordinal);

        await clinic.CountsAsync(clinic.Issue(run, (await clinic.Bench.DraftCertificateAsync(run, default))!.Digest));
        var again = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(clinic.Issue(run, seen)));
        Assert.DoesNotContain("xam", $"{again.Reason} {again.NextStep}", StringComparison.Ordinal);
        Assert.Equal(2, clinic.House.Book.NextCertificate);
    }

    [Fact]
    public async Task A_later_certificate_takes_the_place_of_an_earlier_one_from_its_effective_date_on()
    {
        await clinic.CalibrateAsync(Error);
        await clinic.CalibrateAsync(Error);

        var first = (await clinic.Bench.ShowCertificateAsync(1, default))!;
        var second = CertificateText.Read((await clinic.Bench.ShowCertificateAsync(2, default))!.Text);
        Assert.Equal(1, second.Supersedes);
        Assert.Equal(2, clinic.Exam(await clinic.OpenAsync()).Calibration!.Number);
        clinic.Time.SetUtcNow(clinic.Instrument.Now.AddMinutes(1));
        Assert.Equal(2, (await clinic.Bench.ShowCertificateAsync(1, default))!.SupersededBy);
        Assert.Equal(first.Text, (await clinic.Bench.ShowCertificateAsync(1, default))!.Text);
    }

    [Fact]
    public async Task It_holds_from_its_effective_date_on_and_expires()
    {
        await clinic.CountsAsync(clinic.Discs());
        var run = (await clinic.RecordedAsync(clinic.Begin("calibration", 3))).Exam!.Value;
        await clinic.FollowAsync(run, new() { Right = (0.02, 1), Left = (0, 1) });
        await clinic.CountsAsync(clinic.End(run));
        var seen = (await clinic.Bench.DraftCertificateAsync(run, default))!.Digest;
        await clinic.CountsAsync(clinic.Issue(run, seen, clinic.Instrument.Now.AddDays(2)));

        Assert.Null(clinic.Exam(await clinic.OpenAsync()).Calibration);
        clinic.Time.SetUtcNow(clinic.Instrument.Now.AddDays(3));
        Assert.Equal("holds", (await Only()).Calibration.Standing);
        clinic.Time.SetUtcNow(clinic.Instrument.Now.AddDays(400));
        Assert.Equal("expired", (await Only()).Calibration.Standing);
    }

    [Fact]
    public async Task A_scale_beyond_the_limit_fails_and_says_so()
    {
        await clinic.CalibrateAsync(new() { Right = (0.300, 1.0), Left = (0, 1.0) });

        var certificate = CertificateText.Read((await clinic.Bench.ShowCertificateAsync(1, default))!.Text);
        Assert.Equal(("fail", "pass"), (certificate.Scales.Right.Statement, certificate.Scales.Left.Statement));
        clinic.Time.SetUtcNow(clinic.Instrument.Now);
        Assert.Equal("failed", (await Only()).Calibration.Standing);
    }

    private async Task<Views.BenchInstrument> Only() =>
        Assert.Single((await clinic.Bench.BenchAsync(default)).Instruments);
}
