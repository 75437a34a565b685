using System.Globalization;
using System.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Signing an exam's record, and amending it. Once signed, an exam takes no person's entry until an amendment was begun; what
/// was signed never changes.
/// </summary>
internal static class SigningSteps
{
    private const string Sealed = "it was signed; begin an amendment first";

    /// <summary>Takes an entry about a signed exam that nobody is amending.</summary>
    /// <returns>True if the entry was dealt with here; false if it goes its ordinary way.</returns>
    public static bool Took(Workspace work, Exam exam, ExamEntry entry)
    {
        if (!exam.IsSealed)
            return false;
        switch (entry)
        {
            case ExamSigned or AmendmentBegun:
                return false;
            case ExamSetAside aside when WhyNotReason(aside.Reason) is { } why:
                Refuse(work, exam, entry, why);
                return true;
            case ExamSetAside:
            case EntryWithdrawn taken when IsSettingAside(exam, taken.Withdrawn):
                return false;
            case JudgementEntered judgement:
                work.Put(JudgementGates.Refused(exam, judgement, work.Sequence, JudgementRefusal.ExamSigned));
                return true;
            default:
                Refuse(work, exam, entry, Sealed);
                return true;
        }
    }

    public static void Sign(Workspace work, Exam exam, ExamSigned signed)
    {
        if (WhyNotSigned(exam, signed, work.Sequence) is { } obstacle)
        {
            Refuse(work, exam, signed, obstacle);
            return;
        }

        var reason = signed.Reason ?? exam.Amendment?.Reason;
        var version = new SignedVersion(
            signed.Version,
            signed.Id,
            work.Sequence,
            signed.Who,
            signed.At,
            reason,
            signed.Record
        );
        var record = CourseSteps.Record(work, signed, CourseKind.Signed, null, reason);
        work.Put(
            exam with
            {
                SignedVersions = exam.SignedVersions.Add(version),
                Amendment = null,
                Status = StatusOf(signed.Version),
                Course = exam.Course.Add(record),
            }
        );
    }

    public static void BeginAmendment(Workspace work, Exam exam, AmendmentBegun begun)
    {
        if (WhyNotAmended(exam, begun) is { } obstacle)
        {
            Refuse(work, exam, begun, obstacle);
            return;
        }

        var record = CourseSteps.Record(work, begun, CourseKind.AmendmentBegun, null, begun.Reason);
        work.Put(
            exam with
            {
                Amendment = new(begun.Id, work.Sequence, begun.Who, begun.At, begun.Reason),
                Course = exam.Course.Add(record),
            }
        );
    }

    /// <summary>The status of an exam that has so many signed versions, once nothing else holds of it.</summary>
    public static ExamStatus StatusOf(int versions) =>
        versions switch
        {
            0 => ExamStatus.Open,
            1 => ExamStatus.Signed,
            _ => ExamStatus.Amended,
        };

    /// <summary>Whether an entry began the amendment under way, and nobody has entered anything since.</summary>
    public static bool IsUntouchedAmendment(Exam exam, EntryId began) =>
        exam.Amendment?.Entry == began && exam.EntryIds.Count > 1 && exam.EntryIds[^2] == began;

    /// <summary>
    /// Whatever changed a signed exam other than a person's entry about it came late: it is told of, once after each
    /// signature.
    /// </summary>
    public static void TellOfArrivals(Workspace work, JournalEntry entry)
    {
        var about = (entry as ExamEntry)?.Exam;
        foreach (var exam in work.Changed(e => e.SignedVersions.Count > 0 && e.Id != about))
        {
            var signed = exam.SignedVersions[^1];
            if (
                exam.Incidents.Any(i => i.Kind == IncidentKind.ArrivedAfterSigning && i.When.Sequence > signed.Sequence)
            )
                continue;
            var detail = string.Create(CultureInfo.InvariantCulture, $"after version {signed.Version} was signed");
            work.Put(exam.WithIncident(IncidentKind.ArrivedAfterSigning, MomentOf(work, entry, signed), detail));
        }
    }

    private static Moment MomentOf(Workspace work, JournalEntry entry, SignedVersion signed) =>
        work.Now(
            entry switch
            {
                InstrumentReported reported => reported.ArrivedAt,
                SystemEntry system => system.At,
                PersonEntry person => person.At,
                _ => signed.At,
            }
        );

    private static bool IsSettingAside(Exam exam, EntryId entry) =>
        exam.Status == ExamStatus.SetAside && exam.Course.Any(c => c.Kind == CourseKind.SetAside && c.Entry == entry);

    private static string? WhyNotSigned(Exam exam, ExamSigned signed, JournalSequence now)
    {
        var next = exam.SignedVersions.Count + 1;
        if (exam.Status == ExamStatus.SetAside)
            return "the exam was set aside";
        if (exam.IsSealed)
            return $"it was signed already, as version {next - 1}; begin an amendment if something is to be put right";
        if (!exam.IsBeingAmended && exam.Status != ExamStatus.ReadyForReview)
            return "it is not ready for review yet; make it ready first";
        if (signed.Version != next)
            return $"version {signed.Version} was signed, and the next one is {next}; look at the record again";
        if (signed.MadeUpTo is { } seen && HasEntryBetween(exam, seen, now))
            return "it has changed since the record was made; look at the record again";
        if (signed.Record is { } text && Encoding.UTF8.GetByteCount(text) is var bytes and > ExamSigned.MaxRecordBytes)
            return TooLong("the record", bytes, ExamSigned.MaxRecordBytes)
                + "; take back long remarks, or split the exam";
        if (signed.Record is { } record && string.IsNullOrWhiteSpace(record))
            return "the record is empty";
        return WhyNotReason(signed.Reason);
    }

    private static bool HasEntryBetween(Exam exam, JournalSequence after, JournalSequence before) =>
        exam.Entries.Any(r => Math.Max(r.First.Value, after.Value + 1) <= Math.Min(r.Last.Value, before.Value - 1));

    private static string? WhyNotAmended(Exam exam, AmendmentBegun begun)
    {
        if (exam.Status == ExamStatus.SetAside)
            return "the exam was set aside";
        if (exam.SignedVersions.Count == 0)
            return "it is not signed; it can be corrected without an amendment";
        if (exam.Amendment is { } other)
            return $"{other.Who} is amending it already; sign that amendment first";
        return WhyNotReason(begun.Reason);
    }

    // A reason that is null was erased, or is that of a first signature.
    private static string? WhyNotReason(string? reason)
    {
        if (reason is null)
            return null;
        if (string.IsNullOrWhiteSpace(reason))
            return "a reason is needed";
        return Encoding.UTF8.GetByteCount(reason) is var bytes and > AmendmentBegun.MaxReasonBytes
            ? TooLong("the reason", bytes, AmendmentBegun.MaxReasonBytes)
            : null;
    }

    private static string TooLong(string what, int bytes, int most) =>
        string.Create(CultureInfo.InvariantCulture, $"{what} has {bytes} bytes, and the journal takes at most {most}");

    private static void Refuse(Workspace work, Exam exam, ExamEntry entry, string why) =>
        work.Put(exam.WithIncident(IncidentKind.EntryNotApplied, work.Now(entry.At), why));
}
