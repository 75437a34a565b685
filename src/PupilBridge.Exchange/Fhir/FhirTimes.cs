using System.Globalization;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Fhir;

/// <summary>Times of a record.</summary>
internal static class FhirTimes
{
    /// <summary>When the record came to be what it is: when it was signed; for a draft, when the exam ended or began.</summary>
    public static DateTimeOffset Of(OutgoingRecord outgoing) =>
        outgoing.Signature?.At ?? Read(outgoing.Record.Closed?.At ?? outgoing.Record.Opened.At);

    /// <summary>A time of a record.</summary>
    public static DateTimeOffset Read(string text) =>
        DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
}
