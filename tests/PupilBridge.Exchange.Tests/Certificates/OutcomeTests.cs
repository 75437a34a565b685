using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Exchange.Certificates.Plots;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Tests.Report;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>What must be seen first, and what must not be lost.</summary>
public sealed class OutcomeTests
{
    [Fact]
    public void A_scale_that_failed_is_named_before_one_that_passed_and_with_a_warning()
    {
        var right = Marks(CertificateSamples.Of("failing"));
        Assert.Equal(("OD (right): FAIL", true), (right[0].Word, right[0].IsWarning));
        Assert.Equal(("OS (left): PASS", false), (right[1].Word, right[1].IsWarning));
        // The same instrument with its scales exchanged.
        var mirrored = CertificateSamples.Of("failing");
        mirrored = mirrored with
        {
            Scales = new() { Right = mirrored.Scales.Left, Left = mirrored.Scales.Right },
        };
        Assert.Equal("OS (left): FAIL", Marks(mirrored)[0].Word);
        Assert.Contains("\n!! OD (right): FAIL:", Text("failing"), StringComparison.Ordinal);
        Assert.Contains("\nOD (right) scale: FAIL\n", Text("failing"), StringComparison.Ordinal);
    }

    /// <summary>Gain 1.05: at the disc of 8.001 mm the scale reads 0.4 mm too much.</summary>
    [Fact]
    public void The_worst_disc_speaks_with_its_error_and_its_uncertainty()
    {
        var certificate = CertificateSamples.Of("failing");
        var worst = certificate.Scales.Right.Means.MaxBy(mean => mean.Error)!;
        Assert.InRange(worst.Error, 0.37, 0.43);
        var words = Marks(certificate)[0].Words;
        Assert.Contains("D5 of 8.001 mm", words, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"+{worst.Error:0.000} mm"), words, StringComparison.Ordinal);
        Assert.Contains("limit ±0.100 mm", words, StringComparison.Ordinal);
    }

    [Fact]
    public void What_lies_between_pass_and_fail_says_so()
    {
        var certificate = CertificateSamples.Of("between");
        var statements = certificate.Scales.Select((_, scale) => scale.Statement);
        var marks = Marks(certificate);
        Assert.Equal("OS (left): FAIL", marks[0].Word);
        Assert.Equal(("conditional-fail", "OD (right): CONDITIONAL FAIL"), (statements.Right, marks[1].Word));
        Assert.True(marks[1].IsWarning);
        var pass = certificate with
        {
            Scales = certificate.Scales.Select((_, scale) => scale with { Statement = "conditional-pass" }),
        };
        Assert.All(
            Marks(pass),
            mark =>
            {
                Assert.EndsWith(": CONDITIONAL PASS", mark.Word, StringComparison.Ordinal);
                Assert.Contains("nearer to it than its uncertainty", mark.Words, StringComparison.Ordinal);
            }
        );
    }

    [Fact]
    public void A_scale_that_is_not_straight_is_marked_even_though_it_passed()
    {
        var certificate = CertificateSamples.Of("bent");
        Assert.Equal("pass", certificate.Scales.Left.Statement);
        var bent = Assert.Single(Marks(certificate), mark => mark.IsWarning);
        Assert.Equal("OS (left): NOT STRAIGHT", bent.Word);
        Assert.Contains("not straight", Text("bent"), StringComparison.Ordinal);
        Assert.DoesNotContain("NOT STRAIGHT", Text("passing"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_reading_that_was_set_aside_stands_with_person_and_reason_beside_the_means_and_in_the_annex()
    {
        var certificate = CertificateSamples.Of("set-aside");
        var aside = Assert.Single(certificate.Scales.Left.Readings, reading => reading.State == "set-aside");
        Assert.Equal((CertificateSamples.Reason, "TK"), (aside.Reason, aside.By));
        var document = Document(certificate);
        var list = Section(document, "OS (left) scale:").Parts.OfType<ReportList>().Single();
        Assert.Equal(
            FormattableString.Invariant(
                $"reading {aside.Entry}, disc D3, indicated {aside.Indicated:0.000} mm: set aside by TK, because: {CertificateSamples.Reason}"
            ),
            Assert.Single(list.Items).Text
        );
        var row = Section(document, "Annex: all readings of the OS (left)")
            .Parts.OfType<ReportTable>()
            .Single()
            .Rows.Single(cells => cells[^1] != "counts");
        Assert.Equal($"SET ASIDE by TK: {CertificateSamples.Reason}", row[^1]);
        Assert.Empty(Section(document, "OD (right) scale:").Parts.OfType<ReportList>());
        var plot = ResidualPlot.Of(certificate, Eye.Left);
        Assert.Equal(25, plot.Readings.Count);
        Assert.DoesNotContain(plot.Readings, point => Math.Abs(point.Residual) > 0.2);
    }

    [Fact]
    public void Discs_whose_certificate_ended_before_the_run_are_a_warning()
    {
        var certificate = CertificateSamples.Of("passing");
        Assert.DoesNotContain(Marks(certificate), mark => mark.Word == "DISCS EXPIRED");
        // The run was on 5 January 2026: the last day itself still holds.
        var lastDay = certificate with
        {
            Discs = certificate.Discs with { Expires = "2026-01-05" },
        };
        Assert.DoesNotContain(Marks(lastDay), mark => mark.Word == "DISCS EXPIRED");
        var over = certificate with { Discs = certificate.Discs with { Expires = "2026-01-04" } };
        Assert.True(Assert.Single(Marks(over), mark => mark.Word == "DISCS EXPIRED").IsWarning);
    }

    [Fact]
    public void A_stimulus_out_of_time_is_a_warning_and_one_that_cannot_be_told_is_none()
    {
        var certificate = CertificateSamples.Of("passing");
        var timing = certificate.Timing!;
        var late = certificate with
        {
            Timing = timing with { Eyes = [timing.Eyes[0] with { Verdict = "too-long" }, .. timing.Eyes.Skip(1)] },
        };
        var mark = Assert.Single(Marks(late), mark => mark.IsWarning);
        Assert.Equal("STIMULI NOT TIMELY", mark.Word);
        Assert.Contains("direct, OD (right)", mark.Words, StringComparison.Ordinal);
        var unsure = certificate with
        {
            Timing = timing with { Eyes = [timing.Eyes[0] with { Verdict = "cannot-tell" }] },
        };
        Assert.DoesNotContain(Marks(unsure), mark => mark.IsWarning);
    }

    /// <summary>The lamps of the sample's exam follow each other without any dark time, which the profile allows.</summary>
    [Fact]
    public void No_dark_time_between_the_eyes_is_within_what_is_asked_for() =>
        Assert.All(
            CertificateSamples.Of("passing").Timing!.Eyes.Where(eye => eye.Block != "direct"),
            eye => Assert.Equal((0.0, "within"), (eye.GapMean, eye.GapVerdict))
        );

    [Fact]
    public void What_was_not_measured_is_said_to_be_not_certified_and_never_good()
    {
        var text = Text("bare");
        Assert.Contains("says nothing about the timing of stimuli", text, StringComparison.Ordinal);
        Assert.Contains("says nothing about the lamps", text, StringComparison.Ordinal);
        Assert.Contains("The timing of stimuli was not measured and is not", text, StringComparison.Ordinal);
        Assert.Contains("The lamps were not measured and are not certified", text, StringComparison.Ordinal);
        // Nothing but the sentence that says so: no table, no verdict.
        var document = Document(CertificateSamples.Of("bare"));
        foreach (var section in (string[])["Stimulus timing", "Lamp balance", "Repeatability on living people"])
            Assert.StartsWith(
                "Not measured",
                Assert.IsType<ReportText>(Assert.Single(Section(document, section).Parts)).Text,
                StringComparison.Ordinal
            );
    }

    [Theory]
    [InlineData("passing")]
    [InlineData("bare")]
    public void The_cautions_are_on_every_certificate(string name)
    {
        var text = Text(name);
        Assert.Contains("not what they read of eyes", text, StringComparison.Ordinal);
        Assert.Contains(
            PdfReading.Squeeze("Unequal lamps imitate a relative afferent defect"),
            PdfReading.Squeeze(text),
            StringComparison.Ordinal
        );
        Assert.EndsWith("Follow local policy; a licensed practitioner decides.\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void By_simple_acceptance_only_two_statements_are_explained()
    {
        var rule = Section(Document(CertificateSamples.Of("bare")), "Decision rule");
        Assert.Equal(2, rule.Parts.OfType<ReportList>().Single().Items.Count);
        var guarded = Section(Document(CertificateSamples.Of("passing")), "Decision rule");
        Assert.Equal(4, guarded.Parts.OfType<ReportList>().Single().Items.Count);
        Assert.Contains(
            "ILAC-G8:09/2019, 4.2",
            guarded.Parts.OfType<ReportText>().First().Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Words_of_a_newer_program_stand_as_they_are_and_count_as_the_worst()
    {
        var certificate = CertificateSamples.Of("passing");
        var newer = certificate with
        {
            Scales = certificate.Scales.Select(
                (eye, scale) => eye == Eye.Left ? scale with { Statement = "not-decided" } : scale
            ),
        };
        Assert.Equal(("OS (left): not-decided", true), (Marks(newer)[0].Word, Marks(newer)[0].IsWarning));
    }

    private static string Text(string name) => CertificateDocuments.Text(CertificateSamples.Json(name), false);

    private static ReportDocument Document(Certificate certificate) =>
        CertificateDocuments.Compose(CertificateText.Write(certificate), false);

    private static IReadOnlyList<ReportMark> Marks(Certificate certificate) => Document(certificate).Marks;

    private static ReportSection Section(ReportDocument document, string begin) =>
        document.Sections.Single(section => section.Title.StartsWith(begin, StringComparison.Ordinal));
}
