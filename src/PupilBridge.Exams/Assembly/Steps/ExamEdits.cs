using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>Small changes that many steps make to an exam.</summary>
internal static class ExamEdits
{
    /// <summary>The exam with one more entry of the journal.</summary>
    public static Exam WithEntry(this Exam exam, JournalSequence sequence)
    {
        var ranges = exam.Entries;
        if (ranges.Count == 0 || sequence.Value > ranges[^1].Last.Value + 1)
            return exam with { Entries = ranges.Add(new(sequence, sequence)) };
        return sequence <= ranges[^1].Last
            ? exam
            : exam with
            {
                Entries = ranges.SetItem(ranges.Count - 1, ranges[^1] with { Last = sequence }),
            };
    }

    /// <summary>The exam with one more moment of life in it.</summary>
    public static Exam WithActivity(this Exam exam, Moment when) =>
        when.At >= exam.LastActivity.At ? exam with { LastActivity = when } : exam;

    public static Exam WithIncident(this Exam exam, IncidentKind kind, Moment when, string detail) =>
        exam with
        {
            Incidents = exam.Incidents.Add(new(kind, when, detail)),
        };

    public static Exam WithRefused(this Exam exam, RefusedPair pair) =>
        exam with
        {
            RefusedPairs = exam.RefusedPairs.Add(pair),
        };
}
