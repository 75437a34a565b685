using System.Globalization;
using System.Text;
using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange;
using PupilBridge.Exchange.Sending;

namespace PupilBridge.Scenarios.Sending;

/// <summary>
/// A record as the least transaction that has all that sending depends on: a patient, an observation and a report that leads to it, each
/// created only where the server does not have it by its identifier.
/// </summary>
public sealed class PlainPayloads : IRecordPayloads
{
    private const string House = "https://example.org/quayside";

    /// <inheritdoc/>
    public RecordIdentifier IdentifierOf(OutgoingRecord outgoing) =>
        new("DiagnosticReport", $"{House}/report", Key(outgoing));

    /// <inheritdoc/>
    public RecordPayload Make(OutgoingRecord outgoing)
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
            Identifier = [Id("observation", $"{Key(outgoing)}/size")],
            Status = outgoing.Record.Version > 1 ? ObservationStatus.Amended : ObservationStatus.Final,
            Code = new CodeableConcept { Text = "pupil diameter" },
            Subject = new ResourceReference(Name("patient")),
        };
        var report = new DiagnosticReport
        {
            Identifier = [Id("report", Key(outgoing))],
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
                Entry("patient", patient, patient.Identifier[0]),
                Entry("observation", observation, observation.Identifier[0]),
                Entry("report", report, report.Identifier[0]),
            ],
        };
        return new RecordPayload(Encoding.UTF8.GetBytes(FhirShelf.Write(bundle)), "application/fhir+json", 3);
    }

    private static string Key(OutgoingRecord outgoing) =>
        string.Create(CultureInfo.InvariantCulture, $"{outgoing.Record.Exam}/{outgoing.Record.Version}");

    private static Identifier Id(string kind, string value) => new($"{House}/{kind}", value);

    private static string Name(string kind) =>
        kind switch
        {
            "patient" => "urn:uuid:0b8c0c55-2d0c-4f0e-9b67-000000000001",
            "observation" => "urn:uuid:0b8c0c55-2d0c-4f0e-9b67-000000000002",
            _ => "urn:uuid:0b8c0c55-2d0c-4f0e-9b67-000000000003",
        };

    private static Bundle.EntryComponent Entry(string kind, Resource resource, Identifier id) =>
        new()
        {
            FullUrl = Name(kind),
            Resource = resource,
            Request = new Bundle.RequestComponent
            {
                Method = Bundle.HTTPVerb.POST,
                Url = resource.TypeName,
                IfNoneExist = $"identifier={Uri.EscapeDataString($"{id.System}|{id.Value}")}",
            },
        };
}
