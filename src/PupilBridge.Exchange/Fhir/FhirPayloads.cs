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
        return new RecordIdentifier(
            "DiagnosticReport",
            settings.Of("report"),
            outgoing.Record.Exam.ToString(CultureInfo.InvariantCulture),
            settings.Of("record"),
            outgoing.Record.Version
        );
    }

    /// <inheritdoc/>
    public RecordPayload Make(OutgoingRecord outgoing, IReadOnlyList<OutgoingRecord> earlier)
    {
        ArgumentNullException.ThrowIfNull(outgoing);
        if (settings.IsExampleHouse)
        {
            throw new RecordNotSentException(FhirWords.Of("NotSent.Example", outgoing.Record.Exam));
        }

        var bundle = FhirBundles.Transaction(outgoing, settings, earlier);
        var body = Encoding.UTF8.GetBytes(FhirJson.Write(bundle));
        return new RecordPayload(body, FhirJson.MediaType, bundle.Entry.Count);
    }
}
