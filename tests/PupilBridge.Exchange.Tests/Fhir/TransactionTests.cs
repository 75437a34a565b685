using Hl7.Fhir.Model;
using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Sending;
using PupilBridge.Exchange.Tests.Fhir.Support;

namespace PupilBridge.Exchange.Tests.Fhir;

public sealed class TransactionTests
{
    private static readonly FhirSettings House = new() { House = "https://example.org/quayside" };

    [Fact]
    public void Every_resource_is_created_only_where_the_server_has_it_not()
    {
        var bundle = FhirBundles.Transaction(Records.Signed(Records.Constructed(1)), House);

        Assert.Equal(Bundle.BundleType.Transaction, bundle.Type);
        Assert.All(
            bundle.Entry,
            e =>
            {
                Assert.Equal((Bundle.HTTPVerb.POST, e.Resource!.TypeName), (e.Request!.Method, e.Request!.Url));
                Assert.Matches("^(identifier|_tag)=https%3A%2F%2Fexample.org%2Fquayside%2F", e.Request!.IfNoneExist);
                Assert.Null(e.Resource.Id);
            }
        );
        var patient = bundle.Entry.Single(e => e.Resource is Patient);
        Assert.Equal(
            "identifier=https%3A%2F%2Fexample.org%2Fquayside%2Fpatient%7CQ-1001",
            patient.Request!.IfNoneExist
        );
        Assert.StartsWith("_tag=", bundle.Entry.Single(e => e.Resource is Provenance).Request!.IfNoneExist);
    }

    [Fact]
    public void Two_versions_share_patient_and_instrument_and_nothing_of_the_record()
    {
        var first = Records.Constructed(1);
        var one = FhirBundles.Transaction(Records.Signed(first), House).Entry;
        var two = FhirBundles.Transaction(Records.Amended(first), House).Entry;

        var shared = one.Select(e => e.Request!.IfNoneExist)
            .Intersect(two.Select(e => e.Request!.IfNoneExist))
            .ToHashSet();

        Assert.Equal(
            ["Device", "DeviceMetric", "DeviceMetric", "DeviceMetric", "Patient", "Practitioner", "Practitioner"],
            one.Where(e => shared.Contains(e.Request!.IfNoneExist)).Select(e => e.Request!.Url).Order()
        );
    }

    [Fact]
    public void What_must_not_be_sent_is_refused_with_what_to_do()
    {
        var signed = Records.Signed(Records.Constructed(1));

        Refused(Records.Draft(signed.Record), "Sign it");
        Refused(signed with { IsSetAside = true }, "set aside");
        Refused(Records.Signed(signed.Record with { Patient = null }), "Attach it");
        Refused(signed with { Patient = new PatientView("Q-1002", null, null) }, "Q-1002");
    }

    [Fact]
    public void A_document_is_refused_too_where_it_was_set_aside_or_belongs_to_another()
    {
        var signed = Records.Signed(Records.Constructed(1));
        Assert.Throws<RecordNotSentException>(() => (signed with { IsSetAside = true }).Document());
        Assert.Throws<RecordNotSentException>(() =>
            (signed with { Patient = new PatientView("Q-1002", "Crane Two", null) }).Document()
        );
    }

    [Fact]
    public void The_outbox_posts_the_transaction_and_finds_it_again_by_the_reports_identifier()
    {
        var signed = Records.Signed(Records.Constructed(1));
        var payloads = new FhirPayloads(House);

        var payload = payloads.Make(signed);

        var bundle = FhirJson.Read<Bundle>(System.Text.Encoding.UTF8.GetString(payload.Body.Span));
        Assert.Equal((bundle.Entry.Count, "application/fhir+json"), (payload.Entries, payload.ContentType));
        var named = payloads.IdentifierOf(signed);
        var report = bundle.One<DiagnosticReport>();
        Assert.Equal(
            (report.TypeName, report.Identifier[0].System, report.Identifier[0].Value),
            (named.Type, named.System, named.Value)
        );
    }

    [Fact]
    public void The_outbox_is_refused_under_the_example_address_and_for_what_must_not_leave()
    {
        var signed = Records.Signed(Records.Constructed(1));
        var example = Assert.Throws<RecordNotSentException>(() => new FhirPayloads(new FhirSettings()).Make(signed));
        Assert.Contains("Fhir:House", example.Message, StringComparison.Ordinal);
        Assert.Throws<RecordNotSentException>(() => new FhirPayloads(House).Make(signed with { IsSetAside = true }));
    }

    private static void Refused(Clinic.Outgoing.OutgoingRecord outgoing, string words) =>
        Assert.Contains(
            words,
            Assert.Throws<RecordNotSentException>(() => FhirBundles.Transaction(outgoing, House)).Message,
            StringComparison.Ordinal
        );
}
