using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Fhir.Checks;
using PupilBridge.Exchange.Tests.Fhir.Support;
using static PupilBridge.Exchange.Tests.Fhir.Support.BundleReading;

namespace PupilBridge.Exchange.Tests.Fhir;

/// <summary>Each check finds what it is there for; a bundle as it is made has nothing wrong.</summary>
public sealed class BundleChecksTests
{
    private static readonly OutgoingRecord Signed = Records.Signed(Records.Constructed(2));

    [Theory]
    [MemberData(nameof(Records.Numbers), MemberType = typeof(Records))]
    public void A_bundle_as_it_is_made_has_nothing_wrong(int number)
    {
        var outgoing = Records.Signed(Records.Constructed(number));
        Assert.Equal([], BundleChecks.Of(outgoing.Document(), outgoing, Settings));
    }

    [Fact]
    public void A_body_site_of_the_other_eye_is_found() =>
        Finds("names both sides", b => (Left(b).BodySite, Right(b).BodySite) = (Right(b).BodySite, Left(b).BodySite));

    [Fact]
    public void A_body_site_that_names_both_eyes_is_found() =>
        Finds("names both sides", b => Right(b).BodySite!.Coding.AddRange(Left(b).BodySite!.Coding));

    [Fact]
    public void A_code_of_the_other_eye_is_found() =>
        Finds("names both sides", b => (Left(b).Code, Right(b).Code) = (Right(b).Code, Left(b).Code));

    [Fact]
    public void The_other_eyes_scale_is_found() => Finds("names both sides", b => Left(b).Device = Right(b).Device);

    [Fact]
    public void A_reading_without_its_side_is_found() =>
        Finds("names both sides", b => Left(b).BodySite = b.Observation("anisocoria/dim").BodySite);

    [Fact]
    public void Values_exchanged_between_the_eyes_are_found() =>
        Finds("in the record and", b => (Left(b).Value, Right(b).Value) = (Right(b).Value, Left(b).Value));

    [Fact]
    public void Lights_exchanged_are_found() =>
        Finds(
            "in the record and",
            b =>
            {
                var (dim, bright) = (b.Observation("diameter/left/dim"), b.Observation("diameter/left/bright"));
                (dim.Value, bright.Value) = (bright.Value, dim.Value);
            }
        );

    [Fact]
    public void A_grade_of_the_other_eye_is_found()
    {
        var outgoing = Records.Signed(Records.Constructed(29));
        var bundle = outgoing.Document();
        var (right, left) = (bundle.Observation("direct/right"), bundle.Observation("direct/left"));
        (right.Value, left.Value) = (left.Value, right.Value);
        Assert.Contains(
            BundleChecks.Of(bundle, outgoing, Settings),
            f => f.Contains("direct-response", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_raw_position_that_was_changed_is_found() =>
        Finds("scale-position-nasal", b => ((Quantity)Left(b).Fact("scale-position-nasal")!).Value += 0.001m);

    [Fact]
    public void A_value_that_the_record_does_not_have_is_found() =>
        Finds(
            "none in the record",
            b =>
            {
                var near = b.Observation("near/left");
                near.DataAbsentReason = null;
                near.Value = new Quantity(4, "{score}") { System = "http://unitsofmeasure.org", Code = "{score}" };
            }
        );

    [Fact]
    public void A_value_left_out_is_found() =>
        Finds(
            "not in the message",
            b =>
            {
                var left = Left(b);
                b.Entry.RemoveAll(e => e.Resource == left);
            }
        );

    [Fact]
    public void A_wrong_check_digit_is_found()
    {
        Finds("wrong check digit", b => Left(b).Code!.Coding[0].Code = "8641-4");
        Finds("wrong check digit", b => Left(b).BodySite!.Coding[0].Code = "16089005");
    }

    [Theory]
    [InlineData("http://loinc.org", "79815-7")]
    [InlineData("http://snomed.info/sct", "13045009")]
    [InlineData("http://example.org/other", "x")]
    public void A_code_that_is_not_on_the_list_is_found(string system, string code) =>
        Finds("not on the list of codes", b => b.Observation("exam-panel").Code!.Coding.Add(new Coding(system, code)));

    [Theory]
    [InlineData("furlongz")]
    [InlineData("cm")]
    [InlineData("mm2")]
    public void A_unit_that_is_not_on_the_list_is_found(string unit) =>
        Finds("not on the list of units", b => ((Quantity)Left(b).Value!).Code = unit);

    [Fact]
    public void A_reference_that_leads_nowhere_is_found() =>
        Finds("leads nowhere", b => b.One<DiagnosticReport>().Result[0].Reference = "urn:uuid:nowhere");

    [Fact]
    public void A_resource_that_stands_there_twice_is_found() =>
        Finds("twice", b => b.Entry.Add((Bundle.EntryComponent)b.Entry[^1].DeepCopy()));

    [Fact]
    public void Another_patient_is_found()
    {
        Finds("not about patient", b => b.One<Patient>().Identifier[0].Value = "Q-1002");
        Finds("not about patient", b => Left(b).Subject = new ResourceReference(Left(b).Device!.Reference));
    }

    [Fact]
    public void A_reason_beside_a_value_is_found() =>
        Finds("neither one value", b => Left(b).DataAbsentReason = b.Observation("near/left").DataAbsentReason);

    [Fact]
    public void A_status_that_is_not_the_records_is_found() =>
        Finds("has status", b => Left(b).Status = ObservationStatus.Preliminary);

    [Fact]
    public void A_creation_without_a_condition_is_found()
    {
        var bundle = FhirBundles.Transaction(Signed, Settings);
        bundle.Entry[3].Request!.IfNoneExist = null;
        Assert.Contains(
            BundleChecks.Of(bundle, Signed, Settings),
            f => f.Contains("every repeat", StringComparison.Ordinal)
        );
        bundle.Entry[3].Request = null;
        Assert.Contains(
            BundleChecks.Of(bundle, Signed, Settings),
            f => f.Contains("every repeat", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void An_amendment_put_in_no_place_in_particular_is_found()
    {
        var amended = Records.Amended(Records.Constructed(2));
        var bundle = FhirBundles.Transaction(amended, Settings);
        Assert.Equal([], BundleChecks.Of(bundle, amended, Settings));
        bundle.Entry.First(e => e.Resource is Observation).Request!.Url = "Observation";
        Assert.Contains(
            BundleChecks.Of(bundle, amended, Settings),
            f => f.Contains("every repeat", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_value_of_the_record_marked_as_entered_in_error_is_found() =>
        Finds("not in the message", b => Left(b).Status = ObservationStatus.EnteredInError);

    [Fact]
    public void A_bundle_with_a_fault_does_not_leave()
    {
        var bundle = Signed.Document();
        Left(bundle).Value = Right(bundle).Value;
        var refused = Assert.Throws<RecordNotSentException>(() => BundleChecks.Checked(bundle, Signed, Settings));
        Assert.Contains("Nothing was sent", refused.Message, StringComparison.Ordinal);
    }

    private static Observation Left(Bundle bundle) => bundle.Observation("diameter/left/dim");

    private static Observation Right(Bundle bundle) => bundle.Observation("diameter/right/dim");

    private static void Finds(string words, Action<Bundle> change)
    {
        var bundle = Signed.Document();
        change(bundle);
        Assert.Contains(BundleChecks.Of(bundle, Signed, Settings), f => f.Contains(words, StringComparison.Ordinal));
    }
}
