using System.Text;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Desk;

/// <summary>An exam's record as it would be signed now, or why it cannot be.</summary>
/// <param name="Text">The record; null where it cannot be signed.</param>
/// <param name="Obstacle">Why it cannot be signed; null where it can.</param>
internal sealed record RecordDraft(string? Text, EntryObstacle? Obstacle)
{
    /// <summary>The digest by which a signature says what its person saw; null where it cannot be signed.</summary>
    public string? Digest => Text is null ? null : SignedRecordText.Digest(Text);

    /// <summary>Makes the record of an exam as it is.</summary>
    /// <param name="house">The house.</param>
    /// <param name="exam">The exam.</param>
    /// <param name="input">The exam with what criteria read beside it; only asked where it can be signed.</param>
    public static RecordDraft Of(IClinicHouse house, Exam exam, Func<CriteriaInput> input)
    {
        if (WhyNot(exam) is { } obstacle)
        {
            return new RecordDraft(null, obstacle);
        }

        var text = SignedRecordText.Write(SignedRecords.Of(input(), house.Book.ProgramVersion));
        var bytes = Encoding.UTF8.GetByteCount(text);
        return bytes <= ExamSigned.MaxRecordBytes
            ? new RecordDraft(text, null)
            : new RecordDraft(
                null,
                new EntryObstacle(
                    ClinicText.Desk.Get("Sign.TooLong", exam.Id, bytes, ExamSigned.MaxRecordBytes),
                    ClinicText.Desk["Sign.TooLongNext"]
                )
            );
    }

    private static EntryObstacle? WhyNot(Exam exam)
    {
        if (exam.Erasure is not null)
        {
            return new(ClinicText.Desk.Get("Sign.Erased", exam.Id), ClinicText.Desk["Sign.ErasedNext"]);
        }

        if (exam.Status == ExamStatus.SetAside)
        {
            return new(ClinicText.Desk.Get("Sign.Aside", exam.Id), ClinicText.Desk["Sign.AsideNext"]);
        }

        if (exam.IsSealed)
        {
            var last = exam.SignedVersions[^1];
            return new(
                ClinicText.Desk.Get("Sign.Already", exam.Id, last.Who, last.At.ToDateTimeOffset(), last.Version),
                ClinicText.Desk["Sign.AlreadyNext"]
            );
        }

        if (!exam.IsBeingAmended && exam.Status != ExamStatus.ReadyForReview)
        {
            return new(ClinicText.Desk.Get("Sign.NotReady", exam.Id), ClinicText.Desk["Sign.NotReadyNext"]);
        }

        return exam.Patient is null
            ? new(ClinicText.Desk.Get("Sign.Nobodys", exam.Id), ClinicText.Desk["Sign.NobodysNext"])
            : null;
    }
}
