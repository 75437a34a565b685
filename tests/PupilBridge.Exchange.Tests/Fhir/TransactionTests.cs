using Hl7.Fhir.Model;
using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.Fhir;
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
    public void An_amended_record_takes_the_place_of_the_one_before_and_brings_a_signature_of_its_own()
    {
        var first = Records.Constructed(1);
        var one = FhirBundles.Transaction(Records.Signed(first), House).Entry;
        var two = FhirBundles.Transaction(Records.Amended(first), House, [Records.Signed(first)]).Entry;

        Assert.Equal(one.Count, two.Count);
        var created = one.ToDictionary(e => (e.Resource!.TypeName, e.Request!.IfNoneExist), e => e.FullUrl);
        foreach (var entry in two.Where(e => e.Resource is Observation or DiagnosticReport))
        {
            Assert.Equal((Bundle.HTTPVerb.PUT, null), (entry.Request!.Method, entry.Request.IfNoneExist));
            var place = entry.Request.Url!.Split('?', 2);
            Assert.Equal(entry.FullUrl, created[(place[0], place[1])]);
        }

        var others = two.Where(e => e.Resource is not (Observation or DiagnosticReport)).ToList();
        Assert.All(others, e => Assert.Equal(Bundle.HTTPVerb.POST, e.Request!.Method));
        var own = Assert.Single(others, e => !created.ContainsKey((e.Resource!.TypeName, e.Request!.IfNoneExist)));
        Assert.IsType<Provenance>(own.Resource);
    }

    [Fact]
    public void What_an_amended_record_does_not_say_any_more_is_marked_as_entered_in_error()
    {
        var first = Records.Constructed(2);
        var gone = first.Findings.First(f => f.Verdict == "met");
        var amended = Records.Amended(first with { Findings = [.. first.Findings.Where(f => f != gone)] });

        var entries = FhirBundles.Transaction(amended, House, [Records.Signed(first)]).Entry;

        var marked = Assert.Single(
            entries,
            e => e.Resource is Observation { Status: ObservationStatus.EnteredInError }
        );
        Assert.Contains(gone.Criterion, ((Observation)marked.Resource!).Identifier[0].Value, StringComparison.Ordinal);
        Assert.Equal(Bundle.HTTPVerb.PUT, marked.Request!.Method);
        Assert.DoesNotContain(
            entries.Select(e => e.Resource).OfType<Observation>().SelectMany(o => o.HasMember),
            member => member.Reference == marked.FullUrl
        );
        // Nothing is marked that the server cannot have.
        Assert.DoesNotContain(
            FhirBundles.Transaction(amended, House).Entry,
            e => e.Resource is Observation { Status: ObservationStatus.EnteredInError }
        );
    }

    [Fact]
    public void An_amendment_that_moves_the_exam_to_another_patient_leaves_nothing_with_the_first()
    {
        var first = Records.Constructed(2);
        var moved = first with { Patient = "Q-1002", Findings = [.. first.Findings.Skip(1)] };

        var entries = FhirBundles.Transaction(Records.Amended(moved), House, [Records.Signed(first)]).Entry;

        var patient = Assert.Single(entries, e => e.Resource is Patient);
        Assert.Equal("Q-1002", ((Patient)patient.Resource!).Identifier[0].Value);
        Assert.All(
            entries.Select(e => e.Resource).OfType<Observation>(),
            o => Assert.Equal(patient.FullUrl, o.Subject!.Reference)
        );
        Assert.Contains(entries, e => e.Resource is Observation { Status: ObservationStatus.EnteredInError });
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
    public void A_merged_number_points_to_the_one_that_goes_on_and_is_found_by_its_own_alone()
    {
        var signed = Records.Signed(Records.Constructed(1));
        var number = signed.Record.Patient!;
        var merged = signed with { Patient = new PatientView(number, null, null) { MergedInto = "Q-1009" } };

        var entry = FhirBundles.Transaction(merged, House).Entry.Single(e => e.Resource is Patient);
        var patient = (Patient)entry.Resource!;

        Assert.Equal(number, Assert.Single(patient.Identifier).Value);
        Assert.EndsWith(Uri.EscapeDataString($"|{number}"), entry.Request!.IfNoneExist, StringComparison.Ordinal);
        var link = Assert.Single(patient.Link);
        Assert.Equal(Patient.LinkType.Refer, link.Type);
        Assert.Equal((House.Of("patient"), "Q-1009"), (link.Other!.Identifier!.System, link.Other.Identifier.Value));
        Assert.Null(link.Other.Reference);
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

        var payload = payloads.Make(signed, []);

        var bundle = FhirJson.Read<Bundle>(System.Text.Encoding.UTF8.GetString(payload.Body.Span));
        Assert.Equal((bundle.Entry.Count, "application/fhir+json"), (payload.Entries, payload.ContentType));
        var named = payloads.IdentifierOf(signed);
        var report = bundle.One<DiagnosticReport>();
        Assert.Equal(
            (report.TypeName, report.Identifier[0].System, report.Identifier[0].Value),
            (named.Type, named.System, named.Value)
        );
        Assert.Equal(
            (report.Identifier[1].System, report.Identifier[1].Value),
            (named.VersionSystem, $"{named.Value}/{named.Version}")
        );
    }

    [Fact]
    public void The_outbox_is_refused_under_the_example_address_and_for_what_must_not_leave()
    {
        var signed = Records.Signed(Records.Constructed(1));
        var example = Assert.Throws<RecordNotSentException>(() =>
            new FhirPayloads(new FhirSettings()).Make(signed, [])
        );
        Assert.Contains("Fhir:House", example.Message, StringComparison.Ordinal);
        Assert.Throws<RecordNotSentException>(() =>
            new FhirPayloads(House).Make(signed with { IsSetAside = true }, [])
        );
    }

    private static void Refused(Clinic.Outgoing.OutgoingRecord outgoing, string words) =>
        Assert.Contains(
            words,
            Assert.Throws<RecordNotSentException>(() => FhirBundles.Transaction(outgoing, House)).Message,
            StringComparison.Ordinal
        );
}
