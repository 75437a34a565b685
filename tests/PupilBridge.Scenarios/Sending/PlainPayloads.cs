using System.Globalization;
using System.Text;
using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange;
using PupilBridge.Exchange.Sending;

namespace PupilBridge.Scenarios.Sending;

/// <summary>
/// A record as the least transaction that has all that sending depends on: a patient, an observation and a report that leads to it, each
/// created only where the server does not have it by its identifier, and put in the place of the one there with an amendment.
/// </summary>
public sealed class PlainPayloads : IRecordPayloads
{
    private const string House = "https://example.org/quayside";

    /// <inheritdoc/>
    public RecordIdentifier IdentifierOf(OutgoingRecord outgoing) =>
        new("DiagnosticReport", $"{House}/report", Exam(outgoing), $"{House}/record", outgoing.Record.Version);

    /// <inheritdoc/>
    public RecordPayload Make(OutgoingRecord outgoing, IReadOnlyList<OutgoingRecord> earlier)
    {
        if (outgoing.IsSetAside || outgoing.Record.Patient is not { } number)
        {
            throw new RecordNotSentException("The record was set aside, or is about nobody.");
        }

        var patient = new Patient { Identifier = [Id("patient", number)] };
        if (outgoing.Patient is { Name: { } name })
        {
            patient.Name = [new HumanName { Text = name }];
        }

        var observation = new Observation
        {
            Identifier = [Id("observation", $"{Exam(outgoing)}/size")],
            Status = outgoing.Record.Version > 1 ? ObservationStatus.Amended : ObservationStatus.Final,
            Code = new CodeableConcept { Text = "pupil diameter" },
            Subject = new ResourceReference(Name("patient")),
        };
        var report = new DiagnosticReport
        {
            Identifier = [Id("report", Exam(outgoing)), Id("record", $"{Exam(outgoing)}/{outgoing.Record.Version}")],
            Status =
                outgoing.Record.Version > 1
                    ? DiagnosticReport.DiagnosticReportStatus.Amended
                    : DiagnosticReport.DiagnosticReportStatus.Final,
            Code = new CodeableConcept { Text = "pupil exam" },
            Subject = new ResourceReference(Name("patient")),
            Result = [new ResourceReference(Name("observation"))],
        };
        var bundle = new Bundle
        {
            Type = Bundle.BundleType.Transaction,
            Entry =
            [
                Entry("patient", patient, patient.Identifier[0], takesPlace: false),
                Entry("observation", observation, observation.Identifier[0], outgoing.Record.Version > 1),
                Entry("report", report, report.Identifier[0], outgoing.Record.Version > 1),
            ],
        };
        return new RecordPayload(Encoding.UTF8.GetBytes(FhirShelf.Write(bundle)), "application/fhir+json", 3);
    }

    private static string Exam(OutgoingRecord outgoing) => outgoing.Record.Exam.ToString(CultureInfo.InvariantCulture);

    private static Identifier Id(string kind, string value) => new($"{House}/{kind}", value);

    private static string Name(string kind) =>
        kind switch
        {
            "patient" => "urn:uuid:0b8c0c55-2d0c-4f0e-9b67-000000000001",
            "observation" => "urn:uuid:0b8c0c55-2d0c-4f0e-9b67-000000000002",
            _ => "urn:uuid:0b8c0c55-2d0c-4f0e-9b67-000000000003",
        };

    private static Bundle.EntryComponent Entry(string kind, Resource resource, Identifier id, bool takesPlace)
    {
        var condition = $"identifier={Uri.EscapeDataString($"{id.System}|{id.Value}")}";
        return new()
        {
            FullUrl = Name(kind),
            Resource = resource,
            Request = takesPlace
                ? new() { Method = Bundle.HTTPVerb.PUT, Url = $"{resource.TypeName}?{condition}" }
                : new()
                {
                    Method = Bundle.HTTPVerb.POST,
                    Url = resource.TypeName,
                    IfNoneExist = condition,
                },
        };
    }
}
