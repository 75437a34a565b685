using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Constructed;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Tests.Fhir.Support;

/// <summary>Records of constructed exams as they would leave the house.</summary>
internal static class Records
{
    public static readonly DateTimeOffset SignedAt = new(2026, 11, 25, 9, 30, 0, TimeSpan.Zero);

    public static TheoryData<int> Numbers => [.. CriteriaDocument.Rows.Select(r => r.Number)];

    /// <summary>The record of an exam of docs/criteria.md.</summary>
    public static SignedRecord Constructed(int number) =>
        Of(CriteriaDocument.Rows.Single(r => r.Number == number).Done);

    public static SignedRecord Of(string done) => SignedRecords.Of(ConstructedExam.Of(done), "3.0");

    public static OutgoingRecord Draft(SignedRecord record) =>
        new()
        {
            Record = record,
            Signature = null,
            Patient = record.Patient is { } number ? new PatientView(number, null, null) : null,
            IsSetAside = false,
            Head = new JournalHead(120, new string('a', 64)),
        };

    public static OutgoingRecord Signed(SignedRecord record) =>
        Draft(record) with
        {
            Signature = new RecordSignature(
                "DR",
                SignedAt,
                99,
                SignedRecordText.Digest(SignedRecordText.Write(record)),
                IsLatest: true
            ),
        };

    /// <summary>The second version, after the first one was signed.</summary>
    public static OutgoingRecord Amended(SignedRecord first) =>
        Signed(
            first with
            {
                Version = 2,
                PreviousDigest = SignedRecordText.Digest(SignedRecordText.Write(first)),
                AmendmentReason = "wrong eye noted",
            }
        );
}
