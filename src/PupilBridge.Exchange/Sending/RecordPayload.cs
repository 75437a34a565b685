using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Sending;

/// <summary>A record as it is posted to a FHIR server.</summary>
/// <param name="Body">A transaction in UTF-8.</param>
/// <param name="ContentType">What it is, as a media type.</param>
/// <param name="Entries">How many requests it makes; an answer has as many.</param>
public sealed record RecordPayload(ReadOnlyMemory<byte> Body, string ContentType, int Entries);

/// <summary>By what a record is known at a server: one report for all its versions, which says which of them it is.</summary>
/// <param name="Type">The type of the resource that stands for it, such as <c>DiagnosticReport</c>.</param>
/// <param name="System">The system of its identifier.</param>
/// <param name="Value">The identifier within the system: the exam.</param>
/// <param name="VersionSystem">The system of the identifier that says which version it is: <c>Value/Version</c>.</param>
/// <param name="Version">The version, from 1.</param>
public sealed record RecordIdentifier(string Type, string System, string Value, string VersionSystem, int Version);

/// <summary>From a record to what is posted, and to how it is found again.</summary>
public interface IRecordPayloads
{
    /// <summary>By what the record is known at a server; for a record that was set aside as well.</summary>
    /// <param name="outgoing">The record.</param>
    RecordIdentifier IdentifierOf(OutgoingRecord outgoing);

    /// <summary>
    /// The record as it is posted; each part with a condition, so that a repeat makes no second copy. An amended one takes the place of
    /// what the server has.
    /// </summary>
    /// <param name="outgoing">The record.</param>
    /// <param name="earlier">The versions before it that may be at the server, the latest first.</param>
    /// <exception cref="RecordNotSentException">It must not be sent; the message says why and what to do.</exception>
    RecordPayload Make(OutgoingRecord outgoing, IReadOnlyList<OutgoingRecord> earlier);
}
