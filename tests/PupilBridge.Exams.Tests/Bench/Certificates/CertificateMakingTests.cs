using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Bench.Certificates;

/// <summary>A certificate says all that was read, computed and decided; its numbers are worked out by hand beside each.</summary>
public sealed class CertificateMakingTests
{
    // Each scale reads each disc 25 and 35 µm too large; the right one also has a reading that was set aside.
    private const string Run =
        "meet A; mode measure; bench calibration R d2 L d2 R d5 L d5 R d8 L d8 R d8 L d8 R d5 L d5 R d2 L d2;"
        + "pair R 2025; pair L 2025; pair R 5900; pair L 5025; pair L 8888; pair R 8025; pair L 8025; pair R 8035; pair L 8035;"
        + "pair R 5035; pair L 5035; pair R 2035; pair L 2035; reading 3 aside slipped off; pair R 5025; finish";

    private static readonly Exam Sitting = Script.Run(Run).Run;
    private static readonly Certificate Made = Make(Sitting);

    /// <summary>
    /// JCGM 100:2008, H.3, for means at 2.03, 5.03 and 8.03 mm, all corrected by −0.03 mm: y1 = −0.03, y2 = 0 at d0 = 5.03;
    /// s² = 6·0.005²/3 = 5e-5 with 3 degrees of freedom; the squares of the distances add up to 18 mm².
    /// u²(y1) = 2.5e-5/3 + 0.003²/3 + 0.002² = 1.533333e-5 (H.3.6 for the last), u²(y2) = (2.5e-5 + 9e-6)/18 = 1.888889e-6.
    /// </summary>
    [Fact]
    public void The_line_is_that_of_the_means_with_all_that_makes_it_uncertain()
    {
        var line = Made.Scales.Right.Line;
        Assert.Equal(5.03, line.D0, 12);
        Assert.Equal(-0.03, line.Y1, 12);
        Assert.Equal(0, line.Y2, 12);
        Assert.Equal(Math.Sqrt(1.533333e-5), line.UncertaintyOfY1, 8);
        Assert.Equal(Math.Sqrt(1.888889e-6), line.UncertaintyOfY2, 8);
        Assert.Equal(0, line.Correlation, 9);
        Assert.Equal(Math.Sqrt(5e-5), line.Repeatability, 12);
        Assert.Equal(3, line.RepeatabilityDegrees);
        // Six readings, each 5 µm off the line: √(1.5e-4/4).
        Assert.Equal(Math.Sqrt(3.75e-5), line.ResidualDeviation, 12);
        Assert.False(line.IsBent);
        Assert.InRange(line.LackOfFit!.Value, 0, 1e-12);
    }

    /// <summary>
    /// At 5 mm, 0.03 mm off the origin: 8.33333e-6 + 9e-4·1.388889e-6 from readings, 3e-6 + 9e-4·5e-7 from discs, 4e-6 common, 5e-5 of the
    /// reading itself; the steps of 10 µm hide 0.01²/6 = 1.7e-5, less than the scatter shows. Together 6.533503e-5 mm², with
    /// 6.533503e-5² / (5.833458e-5²/3) = 3.7632 degrees of freedom, the two parts of one scatter taken as one (JCGM 100:2008, G.4).
    /// </summary>
    [Fact]
    public void The_budget_names_every_contribution_and_adds_up()
    {
        var budget = Made.Scales.Right.Budget;
        Assert.Equal((5.0, 4.97), (budget.Indicated, Math.Round(budget.Corrected, 12)));
        Assert.Equal(
            ["line-from-readings", "line-from-discs", "straightness", "common-offset", "repeatability", "resolution"],
            budget.Lines.Select(part => part.Kind)
        );
        Assert.Equal(["A", "B", "B", "B", "A", "B"], budget.Lines.Select(part => part.Type));
        Assert.Equal(Math.Sqrt(8.334583e-6), budget.Lines[0].StandardUncertainty, 8);
        Assert.Equal(Math.Sqrt(3.00045e-6), budget.Lines[1].StandardUncertainty, 8);
        Assert.Equal([0, 0.002], [budget.Lines[2].StandardUncertainty, budget.Lines[3].StandardUncertainty]);
        Assert.Equal(Math.Sqrt(5e-5), budget.Lines[4].StandardUncertainty, 12);
        Assert.Equal(0, budget.Lines[5].StandardUncertainty);
        Assert.Equal(Math.Sqrt(6.533503e-5), budget.StandardUncertainty, 8);
        Assert.Equal(3.7632, budget.DegreesOfFreedom!.Value, 3);
        Assert.Equal(2 * budget.StandardUncertainty, budget.ExpandedForFactor2, 12);
        // Student's t for 3.7632 degrees of freedom lies between those for 3 and 4: 3.182446 and 2.776445 (usual tables).
        Assert.InRange(budget.ExpandedFor95 / budget.StandardUncertainty, 2.776445, 3.182446);
    }

    /// <summary>u² of a mean's error: 5e-5/2 + 0.003² + 0.002² = 3.8e-5, with 3.8e-5²/(2.5e-5²/3) = 6.9312 degrees of freedom.</summary>
    [Fact]
    public void Every_disc_has_its_mean_its_error_and_what_is_said_of_it()
    {
        Assert.Equal(["d2", "d5", "d8"], Made.Scales.Right.Means.Select(mean => mean.Disc));
        Assert.All(
            Made.Scales.Right.Means,
            mean =>
            {
                Assert.Equal((2, "pass"), (mean.Count, mean.Statement));
                Assert.Equal(0.03, mean.Error, 12);
                Assert.Equal(-0.03, mean.Correction, 12);
                Assert.Equal(0, mean.Residual, 12);
                Assert.Equal(Math.Sqrt(5e-5), mean.Deviation, 12);
                Assert.Equal(Quantiles.StudentT(6.9312) * Math.Sqrt(3.8e-5), mean.Expanded, 7);
            }
        );
        Assert.Equal("pass", Made.Scales.Right.Statement);
        Assert.Equal(("guard-band", 0.1, 1.0), (Made.Rule.Kind, Made.Rule.Limit, Made.Rule.GuardBandFactor));
    }

    [Fact]
    public void All_readings_stand_in_it_with_what_became_of_them()
    {
        Assert.Equal(
            ["counts", "set-aside", "counts", "counts", "counts", "counts", "counts"],
            Made.Scales.Right.Readings.Select(reading => reading.State)
        );
        var aside = Made.Scales.Right.Readings[1];
        Assert.Equal(("d5", 5.9, "slipped off", "TK"), (aside.Disc, aside.Indicated, aside.Reason, aside.By));
        Assert.Equal((5000, 10900), (aside.NasalMicrometres, aside.TemporalMicrometres));
        Assert.Equal("other-scale", Made.Scales.Left.Readings.Single(reading => reading.Indicated > 8.8).State);
        Assert.Equal(Sitting.Captures.Count, Made.Scales.Right.Readings.Count + Made.Scales.Left.Readings.Count);
    }

    [Fact]
    public void The_band_goes_from_the_smallest_to_the_largest_disc_and_is_widest_at_its_ends()
    {
        var band = Made.Scales.Left.Band;
        Assert.Equal((2.03, 8.03), (Math.Round(band[0].Indicated, 9), Math.Round(band[^1].Indicated, 9)));
        Assert.All(band, point => Assert.Equal(-0.03, point.Correction, 9));
        Assert.Equal(band[0].ExpandedFor95, band.Max(point => point.ExpandedFor95), 9);
        Assert.Equal(band[band.Count / 2].ExpandedFor95, band.Min(point => point.ExpandedFor95), 9);
        Assert.Equal(band[0].ExpandedFor95, band[^1].ExpandedFor95, 9);
    }

    [Fact]
    public void It_names_instrument_discs_run_and_what_it_takes_the_place_of()
    {
        Assert.Equal(
            ("Q7", "Quay-A", "1.0"),
            (Made.Instrument.Serial, Made.Instrument.Model, Made.Instrument.Firmware)
        );
        Assert.Equal(
            (10, 10),
            (Made.Instrument.ResolutionMicrometres.Right, Made.Instrument.ResolutionMicrometres.Left)
        );
        Assert.Equal(
            ("quay set", "QS-17", "2027-03-01"),
            (Made.Discs.Name, Made.Discs.CertificateNumber, Made.Discs.Expires)
        );
        Assert.Equal(0.002, Made.Discs.CommonUncertainty);
        Assert.Equal((Sitting.Id.Value, "TK"), (Made.Run.Number, Made.Run.Technician));
        Assert.Equal("0000000000000007", Made.Run.Seed);
        Assert.Equal(21.5, Made.Run.TemperatureCelsius);
        Assert.Equal(Sitting.Bench!.Ending!.At.ToString(), Made.Run.Ended);
        Assert.Equal((4L, 3L), (Made.Number, Made.Supersedes));
        Assert.Equal(Math.Round(Math.Log10(2), 9), Math.Round(Made.Lamps!.LogUnits, 9));
        Assert.Equal(
            (9, 0.08, 12),
            (Made.Repeatability!.Run, Made.Repeatability.StandardDeviation, Made.Repeatability.DegreesOfFreedom)
        );
        Assert.Equal("17:ab12", Made.JournalHead);
    }

    [Fact]
    public void Its_text_comes_back_as_it_was_and_equal_certificates_give_equal_texts()
    {
        var text = CertificateText.Write(Made);
        Assert.Equal(Made, CertificateText.Read(text));
        Assert.Equal(text, CertificateText.Write(Make(Script.Run(Run).Run)));
        Assert.Equal(text, CertificateText.Write(CertificateText.Read(text)));
        // Nothing in it is no number, though degrees of freedom may be infinite.
        Assert.DoesNotContain("Infinity", text, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("certificate 1")]
    public void What_is_no_certificate_is_not_read_as_one(string text) =>
        Assert.Throws<FormatException>(() => CertificateText.Read(text));

    [Fact]
    public void One_of_a_newer_form_is_refused()
    {
        var newer = CertificateText.Write(Made with { Format = Certificate.NewestFormat + 1 });
        Assert.Contains(
            "newer",
            Assert.Throws<FormatException>(() => CertificateText.Read(newer)).Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_run_without_a_fit_gets_none()
    {
        var short_ = Script.Run("meet A; bench calibration all 2; pair R 2030; finish").Run;
        Assert.Throws<ArgumentException>(() => Make(short_));
    }

    [Fact]
    public void Repeats_that_are_all_alike_leave_a_certificate_that_can_be_written()
    {
        var alike = Script
            .Run(
                "meet A; bench calibration R d2 L d2 R d5 L d5 R d8 L d8 R d2 L d2 R d5 L d5 R d8 L d8;"
                    + string.Concat(
                        Enumerable
                            .Range(0, 2)
                            .Select(_ =>
                                "pair R 2030; pair L 2030; pair R 5030; pair L 5030; pair R 8030; pair L 8030;"
                            )
                    )
                    + "finish"
            )
            .Run;
        var line = CertificateText.Read(CertificateText.Write(Make(alike))).Scales.Right.Line;
        Assert.Equal(0, line.Repeatability);
        // What the steps hide stays in the line: 0.01²/6 over three discs, beside discs and common offset.
        Assert.Equal(Math.Sqrt((1.666667e-5 / 3) + 3e-6 + 4e-6), line.UncertaintyOfY1, 8);
    }

    private static Certificate Make(Exam sitting) =>
        CertificateMaking.Of(
            sitting,
            CalibrationOutcome.Of(sitting),
            new()
            {
                Number = 4,
                Clinic = "Quayside Occupational Health",
                Issued = new(2_000_000),
                IssuedBy = new("TK"),
                Effective = new(2_000_000),
                Expires = new(9_000_000),
                Supersedes = new(
                    3,
                    new(2),
                    new(1),
                    new(0),
                    null,
                    Script
                        .Run("meet A; bench calibration all 2; finish; issue 1")
                        .Book.Lane(new("Q7"))!
                        .Calibrations[0]
                        .Scales
                ),
                Timing = null,
                Lamps = Script.Run("lamps 100,102 50,51").Book.Lane(new("Q7"))!.LampBalance,
                Repeatability = new(new(8), new(0), new(9), 0.08, 12),
                ProgramVersion = "0.1.0",
                JournalHead = "17:ab12",
            }
        );
}
