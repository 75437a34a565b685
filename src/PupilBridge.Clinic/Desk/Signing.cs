using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>From a person's signature to the journal's: the record is made here and now, and must be the one that the person saw.</summary>
internal static class Signing
{
    /// <summary>Puts the record under a signature.</summary>
    /// <param name="house">The house.</param>
    /// <param name="given">What came over the desk.</param>
    /// <param name="signed">The journal's entry, still without a record.</param>
    /// <param name="obstacle">What is in the way; null if nothing is.</param>
    /// <returns>The entry with its record.</returns>
    public static ExamSigned Compose(
        IClinicHouse house,
        SignEntry given,
        ExamSigned signed,
        out EntryObstacle? obstacle
    )
    {
        if (house.FindExam(signed.Exam) is not { } exam)
        {
            obstacle = new EntryObstacle(
                ClinicText.Desk.Get("Sign.NoExam", signed.Exam),
                ClinicText.Desk["Sign.NoExamNext"]
            );
            return signed;
        }

        var draft = RecordDraft.Of(house, exam, () => ExamCriteria.Of(house, exam));
        obstacle =
            draft.Obstacle
            ?? (
                string.Equals(draft.Digest, given.SeenDigest?.Trim(), StringComparison.OrdinalIgnoreCase)
                    ? null
                    : Changed(exam)
            );
        return signed with
        {
            Version = exam.SignedVersions.Count + 1,
            Record = draft.Text,
            Reason = exam.Amendment?.Reason,
            MadeUpTo = exam.Entries.Count == 0 ? null : exam.Entries[^1].Last,
        };
    }

    /// <summary>Whether a signature that stands in the journal counts: something may have come between.</summary>
    /// <returns>Null if it does.</returns>
    public static EntryOutcome.Refused? NotCounted(IClinicHouse house, ExamSigned signed)
    {
        if (
            house.FindExam(signed.Exam) is not { } exam
            || exam.SignedVersions.Any(version => version.Entry == signed.Id)
        )
        {
            return null;
        }

        var changed = Changed(exam);
        return new EntryOutcome.Refused(ClinicText.Desk.Get("Sign.NotSigned", changed.Reason), changed.NextStep);
    }

    private static EntryObstacle Changed(Exam exam) =>
        new(ClinicText.Desk.Get("Sign.Changed", exam.Id), ClinicText.Desk["Sign.ChangedNext"]);
}
