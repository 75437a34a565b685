using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Showing;

/// <summary>One exam whole.</summary>
internal static class ExamViews
{
    /// <summary>The exam as it is now.</summary>
    public static ExamView Of(IClinicHouse house, Exam exam) => Of(house, exam, () => ExamCriteria.Of(house, exam));

    /// <summary>The exam as it is now.</summary>
    /// <param name="house">The house.</param>
    /// <param name="exam">The exam.</param>
    /// <param name="criteria">The exam with what criteria read beside it.</param>
    public static ExamView Of(IClinicHouse house, Exam exam, Func<CriteriaInput> criteria) =>
        new()
        {
            Summary = ExamSummaries.Of(exam),
            Erasure = ErasureViews.Of(exam),
            Closing = exam.Closing is { } closing
                ? new ClosingView(Shown.Time(closing.When.At), Shown.Word(closing.Reason))
                : null,
            Sizes = SizeViews.Of(exam),
            Judgements = JudgementViews.Of(exam),
            Stimuli = [.. exam.Stimuli.Select(Of)],
            EyeStatuses = [.. exam.EyeStatuses.Select(status => Of(exam, status))],
            Notes = [.. exam.Notes.Select(Of)],
            Incidents = [.. exam.Incidents.Select(Of)],
            AskedFor = AskedForViews.Of(house, exam),
            DefectGrade = DefectGradeViews.Of(exam),
            Findings = FindingViews.Of(exam, criteria),
            Chart = ExamSummaries.Chart(exam, criteria),
        };

    private static StimulusView Of(Stimulus stimulus) =>
        new()
        {
            Eye = ClinicWords.Eyes[stimulus.Eye],
            Block = ClinicWords.Blocks[stimulus.Block],
            Run = stimulus.Run,
            DwellMilliseconds = stimulus.DwellMilliseconds,
            Timing =
                stimulus.End == StimulusEnd.Complete ? Shown.Word(stimulus.DwellVerdict) : Shown.Word(stimulus.End),
            Sequence = stimulus.On.Sequence.Value,
        };

    private static EyeStatusView Of(Exam exam, EyeStatusRecord status) =>
        new(
            ClinicWords.Eyes[status.Eye],
            Conditions(status.Conditions),
            status.Who.Value,
            Shown.Time(status.At),
            status.Entry.ToString(),
            exam.EyeStatuses.LastOrDefault(s => s.Eye == status.Eye && s.WithdrawnBy is null)?.Entry == status.Entry
        );

    /// <summary>Conditions of an eye in the words that an entry takes.</summary>
    public static List<string> Conditions(EyeConditions conditions) =>
        conditions == EyeConditions.None
            ? [ClinicWords.Conditions[EyeConditions.None]]
            :
            [
                .. Enum.GetValues<EyeConditions>()
                    .Where(one => one != EyeConditions.None && conditions.HasFlag(one))
                    .Select(one => ClinicWords.Conditions[one]),
            ];

    private static NoteView Of(NoteRecord note) =>
        new(note.Text, note.Who.Value, Shown.Time(note.At), note.Entry.ToString(), note.WithdrawnBy is null);

    private static IncidentView Of(Incident incident) =>
        new(
            IncidentWords.Of(incident.Kind),
            // The id of an entry says nothing to a reader; the raw entry, one link away, has it.
            incident.Kind == IncidentKind.EntryWithdrawn
                ? ""
                : incident.Detail,
            Shown.Time(incident.When.At),
            incident.When.Sequence.Value
        );
}
