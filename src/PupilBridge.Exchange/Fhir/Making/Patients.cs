using System.Globalization;
using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>Whom the record is about.</summary>
internal static class Patients
{
    private const string AbsentReason = "http://hl7.org/fhir/StructureDefinition/data-absent-reason";

    public static ResourceReference Add(RecordBundle bundle)
    {
        if (bundle.Record.Patient is not { } number)
        {
            return new ResourceReference
            {
                Display = FhirWords.Of("Patient.Nobody"),
                Extension = [new Extension(AbsentReason, new Code("unknown"))],
            };
        }

        var identifier = bundle.Identify("patient", number);
        var patient = new Patient { Identifier = [identifier] };
        if (bundle.Outgoing.Patient is { } known)
        {
            if (known.Name is { } name)
            {
                patient.Name = [new HumanName { Text = name }];
            }

            patient.BirthDate = known.BirthDate?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            if (known.MergedInto is { } surviving)
            {
                patient.Link = [LinkTo(bundle.Identify("patient", surviving))];
            }
        }

        return bundle.Add(patient, identifier, bundle.Outgoing.Patient?.Erasure?.Words ?? number);
    }

    /// <summary>
    /// Where more is known of the person whose number is merged into another. The number that goes on is no second identifier: a server
    /// that has its patient too would then find two by it, and could create no further record of that one under its condition.
    /// </summary>
    private static Patient.LinkComponent LinkTo(Identifier surviving) =>
        new()
        {
            Other = new ResourceReference { Type = nameof(Patient), Identifier = surviving },
            Type = Patient.LinkType.Refer,
        };
}
