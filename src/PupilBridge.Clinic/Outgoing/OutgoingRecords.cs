using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Outgoing;

/// <summary>From an exam to what may leave the house. A signed version is read from its own bytes, never made anew.</summary>
internal static class OutgoingRecords
{
    /// <summary>An exam's record.</summary>
    /// <param name="house">Where it is known.</param>
    /// <param name="exam">The exam.</param>
    /// <param name="version">Which signed version; null for the latest, or the draft while none is signed.</param>
    /// <returns>Null where there is no such version, or its text has been erased.</returns>
    /// <exception cref="EntryProblemException">The version's text is damaged, or a newer program wrote it.</exception>
    public static OutgoingRecord? Of(IClinicHouse house, Exam exam, int? version)
    {
        var signed = version is { } wanted
            ? exam.SignedVersions.FirstOrDefault(v => v.Version == wanted)
            : exam.SignedVersions.Latest;
        if (signed is null)
        {
            return version is null
                ? Of(
                    house,
                    exam,
                    SignedRecords.Of(ExamCriteria.Of(house, exam), house.Book.ProgramVersion),
                    signature: null
                )
                : null;
        }

        if (signed.Record is not { } text)
        {
            return null;
        }

        var isLatest = signed == exam.SignedVersions.Latest;
        return Of(
            house,
            exam,
            Read(text),
            new RecordSignature(
                signed.Who.Value,
                Shown.Time(signed.At),
                signed.Sequence.Value,
                SignedRecordText.Digest(text),
                isLatest
            )
        );
    }

    private static OutgoingRecord Of(IClinicHouse house, Exam exam, SignedRecord record, RecordSignature? signature) =>
        new()
        {
            Record = record,
            Signature = signature,
            Patient =
                exam.Erasure is not null ? PatientViews.Of(house, exam)
                : exam.Patient is { } id ? PatientViews.Person(house, id)
                : null,
            IsSetAside = exam.Status == ExamStatus.SetAside,
            Head = house.Head is { } head ? new JournalHead(head.Sequence, head.Hash.ToString()) : null,
        };

    private static SignedRecord Read(string text)
    {
        try
        {
            return SignedRecordText.Read(text);
        }
        catch (FormatException unreadable)
        {
            throw new EntryProblemException(unreadable.Message, unreadable);
        }
    }
}
