using Hl7.Fhir.Model;
using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Tests.Fhir.Support;
using static PupilBridge.Exchange.Tests.Fhir.Support.BundleReading;

namespace PupilBridge.Exchange.Tests.Fhir;

public sealed class DocumentTests
{
    [Fact]
    public void A_size_has_its_eye_light_raw_positions_uncertainty_and_scale()
    {
        // Exam 2: bright 4.00/3.80, dim 6.00/5.00 mm, uncalibrated, u = 0.1 mm.
        var bundle = Records.Signed(Records.Constructed(2)).Document();

        var size = bundle.Observation("diameter/left/dim");

        Assert.Equal(5.000m, Millimetres(size.Value));
        Assert.Equal(0.2m, Millimetres(size.Fact("expanded-uncertainty")));
        Assert.Equal(5.000m, Millimetres(size.Fact("scale-position-nasal")));
        Assert.Equal(10.000m, Millimetres(size.Fact("scale-position-temporal")));
        Assert.Equal("not-calibrated", (size.Fact("calibration-state") as CodeableConcept).Ours());
        Assert.Equal("dim", (size.Fact("illumination") as CodeableConcept).Ours());
        Assert.Equal("8641-3", size.Code!.Code("http://loinc.org"));
        Assert.Equal("16089004", size.BodySite!.Code("http://snomed.info/sct"));
        var scale = (DeviceMetric)bundle.Entry.Single(e => e.FullUrl == size.Device!.Reference).Resource!;
        Assert.Equal("Q7/left/not-calibrated", scale.Identifier[0].Value);
        Assert.Equal(DeviceMetric.DeviceMetricCalibrationState.NotCalibrated, Assert.Single(scale.Calibration).State);
    }

    [Fact]
    public void The_difference_is_derived_from_both_sizes_and_names_the_larger_side()
    {
        var bundle = Records.Signed(Records.Constructed(2)).Document();

        var difference = bundle.Observation("anisocoria/dim");

        Assert.Equal(1.000m, Millimetres(difference.Value));
        Assert.Equal("right", (difference.Fact("larger-pupil") as CodeableConcept).Ours());
        var from = difference.DerivedFrom.Select(r => bundle.Entry.Single(e => e.FullUrl == r.Reference).Resource);
        Assert.Equal(["diameter/right/dim", "diameter/left/dim"], from.Cast<Observation>().Select(KeyOf));
    }

    [Fact]
    public void Panels_hold_every_observation_once()
    {
        var bundle = Records.Signed(Records.Constructed(1)).Document();

        Observation[] panels = [bundle.Observation("exam-panel"), bundle.Observation("findings-panel")];

        var members = panels.SelectMany(p => p.HasMember).Select(r => r.Reference).Order();
        var others = bundle
            .Entry.Where(e => e.Resource is Observation { HasMember.Count: 0 })
            .Select(e => e.FullUrl)
            .Order();
        Assert.Equal(others, members);
        Assert.Equal("80310-6", panels[0].Code!.Code("http://loinc.org"));
        var report = bundle.One<DiagnosticReport>();
        Assert.Equal(2, report.Result.Count);
        Assert.Equal("80310-6", report.Code!.Code("http://loinc.org"));
    }

    [Fact]
    public void Not_examined_could_not_be_seen_and_not_possible_are_three_things()
    {
        // Exam 39: the right direct response could not be seen. Exam 40: it was not judged. Exam 46: the left eye is a prosthesis.
        Assert.Equal(("unknown", "could-not-see"), Absent(39, "direct/right"));
        Assert.Equal(("not-performed", "not-examined"), Absent(40, "direct/right"));
        Assert.Equal(("not-applicable", "not-possible"), Absent(46, "diameter/left/bright"));
        Assert.Equal(("not-applicable", "not-possible"), Absent(46, "swinging/swing-long"));
        Assert.Equal(("not-performed", "not-examined"), Absent(23, "swinging/swing-long"));
        Assert.Equal(("unknown", "could-not-see"), Absent(24, "swinging/swing-long"));
        Assert.Equal(("not-performed", "not-examined"), Absent(1, "near/left"));
        Assert.Equal(("not-performed", "not-examined"), Absent(1, "finding/rapd-log-units"));
    }

    [Fact]
    public void A_consensual_response_names_the_pupil_watched_and_the_eye_lit()
    {
        // Exam 29: "consensual 3/0": light in the right moves the left pupil by 3, light in the left moves the right one by 0.
        var bundle = Records.Signed(Records.Constructed(29)).Document();

        var left = bundle.Observation("consensual/left");
        var right = bundle.Observation("consensual/right");

        Assert.Equal((3m, "pupil-left"), (((Quantity)left.Value!).Value, left.BodySite!.Ours()));
        Assert.Equal("right", (left.Fact("eye-lit") as CodeableConcept).Ours());
        Assert.Equal((0m, "pupil-right"), (((Quantity)right.Value!).Value, right.BodySite!.Ours()));
        Assert.Equal("left", (right.Fact("eye-lit") as CodeableConcept).Ours());
    }

    [Fact]
    public void A_swinging_outcome_has_its_dwell_its_timing_and_what_both_come_to()
    {
        var bundle = Records.Signed(Records.Constructed(18)).Document();

        var dwell = bundle.Observation("swinging/swing-long");

        Assert.Equal("106805-5", dwell.Code!.Code("http://loinc.org"));
        Assert.Equal("right-worse", (dwell.Value as CodeableConcept).Ours());
        Assert.Equal((3m, "s"), ((dwell.Fact("dwell") as Quantity)!.Value, (dwell.Fact("dwell") as Quantity)!.Code));
        Assert.True((dwell.Fact("timely") as FhirBoolean)!.Value);
        Assert.Equal("defect-seen", (bundle.Observation("swinging").Value as CodeableConcept).Ours());
        Assert.Equal("right", (bundle.Observation("swinging").Fact("defect-eye") as CodeableConcept).Ours());
    }

    [Fact]
    public void A_finding_says_verdict_sentence_and_sources_and_never_that_something_is_normal()
    {
        var record = Records.Constructed(6);
        var bundle = Records.Signed(record).Document();

        var met = bundle.Observations().Where(o => (o.Value as CodeableConcept).Ours() == "met").ToArray();

        Assert.Equal(record.Findings.Where(f => f.Verdict == "met").Count, met.Length);
        Assert.NotEmpty(met);
        Assert.All(met, o => Assert.Contains(o.Note, n => n.Text!.StartsWith("Sources: ", StringComparison.Ordinal)));
        Assert.Equal(record.Findings.Count, bundle.Observation("findings-panel").HasMember.Count);
    }

    [Fact]
    public void The_signature_names_digest_journal_entry_and_head()
    {
        var outgoing = Records.Signed(Records.Constructed(1));
        var provenance = outgoing.Document().One<Provenance>();

        Assert.Equal(
            [
                ("record-sha256", outgoing.Signature!.Digest),
                ("journal-entry", "99"),
                ("journal-head", $"120/{new string('a', 64)}"),
            ],
            provenance.Entity.Select(e => (e.What!.Identifier!.System!.Split('/')[^1], e.What!.Identifier!.Value!))
        );
        Assert.Equal(Records.SignedAt, Assert.Single(provenance.Signature).When);
        Assert.Equal("DR", provenance.Agent[0].Who!.Display);
    }

    [Fact]
    public void A_draft_is_preliminary_and_bears_no_signature()
    {
        var bundle = Records.Draft(Records.Constructed(1)).Document();

        Assert.Equal(DiagnosticReport.DiagnosticReportStatus.Preliminary, bundle.One<DiagnosticReport>().Status);
        Assert.Equal(CompositionStatus.Preliminary, bundle.One<Composition>().Status);
        Assert.All(bundle.Observations(), o => Assert.Equal(ObservationStatus.Preliminary, o.Status));
        Assert.Empty(bundle.Entry.Select(e => e.Resource).OfType<Provenance>());
    }

    [Fact]
    public void An_amended_version_is_the_same_report_in_a_document_that_replaces_the_one_before()
    {
        var first = Records.Signed(Records.Constructed(1)).Document();
        var bundle = Records.Amended(Records.Constructed(1)).Document();

        var (report, cover) = (bundle.One<DiagnosticReport>(), bundle.One<Composition>());

        // "Subsequent to being final, the report has been modified": hl7.org/fhir/R4/codesystem-diagnostic-report-status.html
        Assert.Equal(DiagnosticReport.DiagnosticReportStatus.Amended, report.Status);
        var before = first.One<DiagnosticReport>().Identifier;
        Assert.Equal(before[0].Value, report.Identifier[0].Value);
        Assert.Equal(before[1].Value!.Replace("/1", "/2", StringComparison.Ordinal), report.Identifier[1].Value);
        Assert.Equal(
            first.Observations().Select(o => o.Identifier[0].Value),
            bundle.Observations().Select(o => o.Identifier[0].Value)
        );
        Assert.NotEqual(first.Identifier!.Value, bundle.Identifier!.Value);
        var replaced = Assert.Single(cover.RelatesTo);
        Assert.Equal(DocumentRelationshipType.Replaces, replaced.Code);
        Assert.Equal(first.Identifier.Value, ((Identifier)replaced.Target!).Value);
        Assert.Contains(bundle.One<Provenance>().Entity, e => e.Role == Provenance.ProvenanceEntityRole.Revision);
    }

    [Fact]
    public void A_name_and_a_date_of_birth_stand_there_only_where_the_clinic_keeps_them()
    {
        var without = Records.Signed(Records.Constructed(1));
        var with = without with { Patient = new PatientView("Q-1001", "Pilot <&> One", new DateOnly(1980, 2, 29)) };

        Assert.Empty(without.Document().One<Patient>().Name);
        Assert.Null(without.Document().One<Patient>().BirthDate);
        var patient = with.Document().One<Patient>();
        Assert.Equal("Pilot <&> One", patient.Name[0].Text);
        Assert.Equal("1980-02-29", patient.BirthDate);
        Assert.Empty((without with { Patient = null }).Document().One<Patient>().Name);
    }

    [Fact]
    public void The_same_record_gives_the_same_text()
    {
        var outgoing = Records.Signed(Records.Constructed(5));
        Assert.Equal(FhirJson.Write(outgoing.Document()), FhirJson.Write(outgoing.Document()));
    }

    [Theory]
    [MemberData(nameof(Records.Numbers), MemberType = typeof(Records))]
    public void A_bundle_written_and_read_back_is_the_same(int number)
    {
        foreach (
            var outgoing in new[]
            {
                Records.Signed(Records.Constructed(number)),
                Records.Draft(Records.Constructed(number)),
            }
        )
        {
            var bundle = outgoing.Document();
            var text = FhirJson.Write(bundle);
            var back = FhirJson.Read<Bundle>(text);
            Assert.True(bundle.IsExactly(back));
            Assert.Equal(text, FhirJson.Write(back));
        }
    }

    private static (string?, string?) Absent(int exam, string key)
    {
        var observation = Records.Signed(Records.Constructed(exam)).Document().Observation(key);
        Assert.Null(observation.Value);
        return (
            observation.DataAbsentReason.Code("http://terminology.hl7.org/CodeSystem/data-absent-reason"),
            observation.DataAbsentReason.Ours()
        );
    }
}
