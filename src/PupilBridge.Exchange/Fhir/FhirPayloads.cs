using System.Globalization;
using System.Text;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Sending;

namespace PupilBridge.Exchange.Fhir;

/// <summary>Records as the outbox posts them to a FHIR server: a transaction under the clinic's own address.</summary>
/// <param name="settings">The clinic's settings.</param>
public sealed class FhirPayloads(FhirSettings settings) : IRecordPayloads
{
    /// <inheritdoc/>
    public RecordIdentifier IdentifierOf(OutgoingRecord outgoing)
    {
        ArgumentNullException.ThrowIfNull(outgoing);
        var key = string.Create(CultureInfo.InvariantCulture, $"{outgoing.Record.Exam}/{outgoing.Record.Version}");
        return new RecordIdentifier("DiagnosticReport", settings.Of("report"), key);
    }

    /// <inheritdoc/>
    public RecordPayload Make(OutgoingRecord outgoing)
    {
        ArgumentNullException.ThrowIfNull(outgoing);
        if (settings.IsExampleHouse)
        {
            throw new RecordNotSentException(FhirWords.Of("NotSent.Example", outgoing.Record.Exam));
        }

        var bundle = FhirBundles.Transaction(outgoing, settings);
        var body = Encoding.UTF8.GetBytes(FhirJson.Write(bundle));
        return new RecordPayload(body, FhirJson.MediaType, bundle.Entry.Count);
    }
}
