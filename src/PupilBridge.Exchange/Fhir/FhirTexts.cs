using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Fhir;

/// <summary>Records as FHIR JSON, for callers that need not know FHIR's own types.</summary>
public static class FhirTexts
{
    /// <summary>The record as a document for people and archives, with line breaks; see <see cref="FhirBundles.Document"/>.</summary>
    /// <param name="outgoing">The record.</param>
    /// <param name="settings">The clinic's settings.</param>
    /// <exception cref="RecordNotSentException">It must not leave; the message says what to do.</exception>
    public static string Document(OutgoingRecord outgoing, FhirSettings settings) =>
        FhirJson.Write(FhirBundles.Document(outgoing, settings), isPretty: true) + "\n";

    /// <summary>The signed record as it is sent to a server; see <see cref="FhirBundles.Transaction"/>.</summary>
    /// <param name="outgoing">The record.</param>
    /// <param name="settings">The clinic's settings.</param>
    /// <exception cref="RecordNotSentException">It must not be sent; the message says what to do.</exception>
    public static string Transaction(OutgoingRecord outgoing, FhirSettings settings) =>
        FhirJson.Write(FhirBundles.Transaction(outgoing, settings));
}
