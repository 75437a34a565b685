using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Fhir.Checks;

/// <summary>Each observation says one thing, of the record's patient, with the record's status.</summary>
internal static class ObservationChecks
{
    public static IEnumerable<string> Of(BundleContent content, OutgoingRecord outgoing)
    {
        var wanted =
            outgoing.Signature is null ? ObservationStatus.Preliminary
            : outgoing.Record.Version > 1 ? ObservationStatus.Amended
            : ObservationStatus.Final;
        var patients = content.Bundle.Entry.Where(e => e.Resource is Patient).ToArray();
        var numbers = content.Resources<Patient>().SelectMany(p => p.Identifier).Select(i => i.Value).ToArray();
        string[] expected = outgoing.Record.Patient is { } number ? [number] : [];
        if (patients.Length != expected.Length || !numbers.SequenceEqual(expected))
        {
            yield return FhirWords.Of("Fault.Patient", outgoing.Record.Patient ?? FhirWords.Of("Patient.Nobody"));
        }

        var subject = patients.Length == 1 ? patients[0].FullUrl : null;
        foreach (var observation in content.Observations)
        {
            var name = observation.Code?.Text;
            if (observation.Subject?.Reference != subject)
            {
                yield return FhirWords.Of("Fault.Patient", outgoing.Record.Patient ?? FhirWords.Of("Patient.Nobody"));
            }

            bool[] said =
            [
                observation.Value is not null,
                observation.DataAbsentReason is not null,
                observation.HasMember.Count > 0,
            ];
            if (said.Count(s => s) != 1)
            {
                yield return FhirWords.Of("Fault.Value", name);
            }

            if (observation.Status != wanted)
            {
                yield return FhirWords.Of("Fault.Status", name, observation.Status, wanted);
            }
        }
    }
}
