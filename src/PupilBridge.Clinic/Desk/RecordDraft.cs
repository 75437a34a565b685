using System.Globalization;
using System.Text;
using PupilBridge.Clinic.House;
using PupilBridge.Exams.Assembly.Facts;
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
    public static RecordDraft Of(IClinicHouse house, Exam exam)
    {
        if (WhyNot(exam) is { } obstacle)
        {
            return new RecordDraft(null, obstacle);
        }

        var text = SignedRecordText.Write(SignedRecords.Of(exam, house.Book.ProgramVersion));
        var bytes = Encoding.UTF8.GetByteCount(text);
        return bytes <= ExamSigned.MaxRecordBytes
            ? new RecordDraft(text, null)
            : new RecordDraft(
                null,
                new EntryObstacle(
                    $"The record of exam {exam.Id} has {bytes} bytes, and the journal takes at most {ExamSigned.MaxRecordBytes}.",
                    "If it holds two sittings, split it; everything recorded stays as it is."
                )
            );
    }

    private static EntryObstacle? WhyNot(Exam exam)
    {
        if (exam.Status == ExamStatus.SetAside)
        {
            return new(
                $"Exam {exam.Id} was set aside.",
                "If it is to be used after all, take the setting aside back first."
            );
        }

        if (exam.IsSealed)
        {
            var last = exam.SignedVersions[^1];
            var at = last.At.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
            return new(
                $"Exam {exam.Id} was signed by {last.Who} on {at}, as version {last.Version}.",
                "If something is to be put right, begin an amendment."
            );
        }

        if (!exam.IsBeingAmended && exam.Status != ExamStatus.ReadyForReview)
        {
            return new($"Exam {exam.Id} is not ready for review yet.", "Make it ready first, then look at it again.");
        }

        return exam.Patient is null
            ? new(
                $"Exam {exam.Id} is attached to nobody yet.",
                "Attach it to its patient first, then look at it again."
            )
            : null;
    }
}
