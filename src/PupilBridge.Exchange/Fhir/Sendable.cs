using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Fhir;

/// <summary>Whether a record may leave the house.</summary>
public static class Sendable
{
    /// <summary>Refuses a record that must not leave in any form for other systems.</summary>
    /// <param name="outgoing">The record.</param>
    /// <exception cref="RecordNotSentException">It was set aside, or the exam now belongs to another patient than the record.</exception>
    public static void Check(OutgoingRecord outgoing)
    {
        ArgumentNullException.ThrowIfNull(outgoing);
        var record = outgoing.Record;
        if (outgoing.IsSetAside)
        {
            throw new RecordNotSentException(FhirWords.Of("NotSent.Aside", record.Exam));
        }

        if (outgoing.Patient is { } known && known.Patient != record.Patient)
        {
            throw new RecordNotSentException(
                FhirWords.Of(
                    "NotSent.OtherPatient",
                    record.Exam,
                    record.Version,
                    record.Patient ?? FhirWords.Of("Patient.Nobody"),
                    known.Patient
                )
            );
        }
    }

    /// <summary>Refuses a record that must not be sent as a result.</summary>
    /// <param name="outgoing">The record.</param>
    /// <exception cref="RecordNotSentException">It may not leave at all, is not signed, or belongs to nobody.</exception>
    public static void CheckAsResult(OutgoingRecord outgoing)
    {
        Check(outgoing);
        var record = outgoing.Record;
        if (outgoing.Signature is null)
        {
            throw new RecordNotSentException(FhirWords.Of("NotSent.Draft", record.Exam));
        }

        if (record.Patient is null)
        {
            throw new RecordNotSentException(FhirWords.Of("NotSent.Nobody", record.Exam));
        }
    }
}
