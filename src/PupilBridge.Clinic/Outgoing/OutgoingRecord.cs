using System.Text.Json.Serialization;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Outgoing;

/// <summary>
/// All that a report, a table or another system is told of an exam. Everything that leaves the house is made of this and of nothing
/// else, so that paper, file and message never differ in what they say.
/// </summary>
public sealed record OutgoingRecord
{
    /// <summary>The record: of a signed version exactly as signed, else as it would be signed now.</summary>
    public required SignedRecord Record { get; init; }

    /// <summary>Which version of the exam's record it is, from 1.</summary>
    [JsonIgnore]
    public int Version => Record.Version;

    /// <summary>Who signed it, and when; null for a draft.</summary>
    public required RecordSignature? Signature { get; init; }

    /// <summary>
    /// The patient as known now, under the number that the exam is attached to; with the number that goes on where that one is merged
    /// into it. Null if the exam is attached to nobody, or nothing is known of the patient.
    /// </summary>
    public required PatientView? Patient { get; init; }

    /// <summary>Whether the exam was set aside: such a record is shown, never sent as a result.</summary>
    public required bool IsSetAside { get; init; }

    /// <summary>The end of the journal when this was made, against which the record can be held later; null where it is not known.</summary>
    public required JournalHead? Head { get; init; }
}

/// <summary>Who signed a version of a record.</summary>
/// <param name="Who">The clinician's sign-in name.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Sequence">Where the signature stands in the journal.</param>
/// <param name="Digest">The SHA-256 of the record's text: 64 hexadecimal digits.</param>
/// <param name="IsLatest">Whether no later version of the record is signed.</param>
public sealed record RecordSignature(string Who, DateTimeOffset At, long Sequence, string Digest, bool IsLatest);

/// <summary>A point of the journal with the chain's value there.</summary>
/// <param name="Sequence">The last entry.</param>
/// <param name="Hash">The chain's value there, in hexadecimal digits.</param>
public sealed record JournalHead(long Sequence, string Hash);
