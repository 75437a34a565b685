using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// A patient's identity is erased. The entry always counts, since the keys are gone by it whatever else is so; its exams are marked, and
/// take no person's entry any more, so that nobody's identity comes back into them.
/// </summary>
internal static class ErasureSteps
{
    public static void Erase(Workspace work, PatientErased entry)
    {
        work.SetInForce(book => book with { LastErasure = work.Sequence });
        var erasure = new Erasure(work.Sequence, entry.Who, entry.At, entry.OrderedBy, entry.Reason);
        foreach (var id in entry.Exams)
        {
            if (work.Find(id) is { Bench: null } exam)
                work.Put(WithoutTexts(exam) with { Erasure = erasure });
        }

        work.Add(new EntryNoted(work.Sequence, entry));
    }

    /// <summary>Refuses what a person enters about an exam whose patient was erased.</summary>
    /// <returns>False if the exam's patient was not erased.</returns>
    public static bool Refused(Workspace work, Exam exam, ExamEntry entry)
    {
        if (exam.Erasure is not { } erasure)
            return false;
        work.Put(
            exam.WithIncident(
                IncidentKind.EntryNotApplied,
                work.Now(entry.At),
                $"what identified its patient was erased by entry {erasure.Sequence}; nothing more is entered about it"
            )
        );
        return true;
    }

    /// <summary>
    /// The exam without its texts at once. Where the journal is read with the keys gone there are none left to take away, and it comes to
    /// the same.
    /// </summary>
    private static Exam WithoutTexts(Exam exam) =>
        exam with
        {
            Notes = [.. exam.Notes.Select(note => note with { Text = null })],
            Course = [.. exam.Course.Select(step => step with { Reason = null })],
            SignedVersions = [.. exam.SignedVersions.Select(version => version with { Record = null, Reason = null })],
            Amendment = exam.Amendment is { } amendment ? amendment with { Reason = null } : null,
            Sendings = [.. exam.Sendings.Select(step => step.Reason is "" ? step : step with { Reason = null })],
        };
}
