using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// How great a defect is, as people enter it. Both scales belong to a defect that the swinging test showed, on its side; what has no
/// opportunity is not applied, with the reason.
/// </summary>
internal static class DefectGradeSteps
{
    public static void Filter(Workspace work, Exam exam, FilterStepEntered step)
    {
        var worse = step.BeforeEye.Fellow();
        var due = DefectGrades.NextStep(DefectGrades.Bracket(exam), worse);
        string? why = null;
        if (Swinging.Of(exam).Eye != worse)
            why =
                $"a filter is held before the better eye of a defect that was seen, and the swinging test shows none of {Words.Of(worse)}";
        else if (step.FilterSteps != due && step.FilterSteps != 1)
            why =
                $"the filter that is due before {Words.Of(step.BeforeEye)} is {Density(due)} log units, not {Density(step.FilterSteps)}; 0.3 begins anew";
        if (why is not null)
        {
            Refuse(work, exam, step, why);
            return;
        }

        var seen = new FilterStepRecord(
            step.Id,
            work.Sequence,
            step.Who,
            step.At,
            step.BeforeEye,
            step.FilterSteps,
            step.Answer,
            null
        );
        work.Put(exam with { FilterSteps = exam.FilterSteps.Add(seen) });
    }

    public static void Bell(Workspace work, Exam exam, BellGradeEntered given)
    {
        var offered = BellScale.Offered(exam, given.Eye);
        string? why = null;
        if (Swinging.Of(exam).Eye != given.Eye)
            why = $"the swinging test shows no defect of {Words.Of(given.Eye)} to be graded";
        else if (offered.IsEmpty)
            why = "the scale of Bell 1993 needs complete alternations of the long dwell";
        else if (!offered.Contains(given.Grade))
            why = FindingReasons.Words(FindingReason.NoSixSeconds);
        if (why is not null)
        {
            Refuse(work, exam, given, why);
            return;
        }

        var grade = new BellGradeRecord(given.Id, work.Sequence, given.Who, given.At, given.Eye, given.Grade, null);
        work.Put(exam with { BellGrades = exam.BellGrades.Add(grade) });
    }

    private static void Refuse(Workspace work, Exam exam, ExamEntry entry, string why) =>
        work.Put(exam.WithIncident(IncidentKind.EntryNotApplied, work.Now(entry.At), why));

    private static string Density(int steps) =>
        NeutralDensity.OfSteps(steps).ToString("0.0", CultureInfo.InvariantCulture);
}
