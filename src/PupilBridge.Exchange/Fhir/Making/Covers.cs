using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>The composition that every document bundle begins with.</summary>
internal static class Covers
{
    public static Composition Of(RecordBundle bundle, Devices devices, ResourceReference report)
    {
        var record = bundle.Record;
        var signature = bundle.Outgoing.Signature;
        return new Composition
        {
            Meta = new Meta { Profile = [bundle.Settings.Profile("pupil-exam-document")] },
            Identifier = bundle.Identify("record", bundle.Key),
            Status =
                bundle.IsDraft ? CompositionStatus.Preliminary
                : bundle.IsAmended ? CompositionStatus.Amended
                : CompositionStatus.Final,
            Type = bundle.Concepts.Of("pupil-exam-record"),
            Subject = bundle.Subject.Again(),
            Date = signature is null
                ? record.Closed?.At ?? record.Opened.At
                : new FhirDateTime(signature.At).ToString(),
            Author = [signature is null ? devices.Instrument.Again() : bundle.Person(signature.Who)],
            Title = FhirWords.Of("Report", record.Exam, record.Version),
            Attester = signature is null
                ? []
                :
                [
                    new()
                    {
                        Mode = Composition.CompositionAttestationMode.Professional,
                        Time = new FhirDateTime(signature.At).ToString(),
                        Party = bundle.Person(signature.Who),
                    },
                ],
            RelatesTo = bundle.IsAmended ? [Earlier(bundle)] : [],
            Section = [new() { Title = FhirWords.Of("Panel.exam-panel"), Entry = [report.Again()] }],
        };
    }

    private static Composition.RelatesToComponent Earlier(RecordBundle bundle) =>
        new()
        {
            Code = DocumentRelationshipType.Replaces,
            Target = bundle.Identify("record", $"{bundle.Record.Exam}/{bundle.Record.Version - 1}"),
        };
}
