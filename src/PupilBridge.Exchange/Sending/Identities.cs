using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Sending;

/// <summary>Leaves out what of a patient's identity is not to go.</summary>
internal static class Identities
{
    /// <summary>The record with the parts that may go.</summary>
    public static OutgoingRecord Only(OutgoingRecord record, IdentityParts parts) =>
        record.Patient is not { } patient
            ? record
            : record with
            {
                Patient = patient with
                {
                    Name = parts.HasFlag(IdentityParts.Name) ? patient.Name : null,
                    BirthDate = parts.HasFlag(IdentityParts.BirthDate) ? patient.BirthDate : null,
                },
            };
}
