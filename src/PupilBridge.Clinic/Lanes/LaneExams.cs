using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Instrument;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Lanes;

/// <summary>The exam on a lane, as recorded.</summary>
internal static class LaneExams
{
    /// <summary>The exam's part of the board.</summary>
    public static LaneExam Of(Exam exam, PatientView? patient, IReadOnlyList<string> beforeDrops, LaneSettings settings)
    {
        var steps = ExamSteps.Of(exam);
        return new LaneExam
        {
            Exam = exam.Id.Value,
            Status = ExamDocuments.WordOf(exam.Status),
            OpenedAt = Shown.Time(exam.Opening.When.At),
            Patient = patient,
            Steps = [.. steps.Select(Of)],
            Prompt = LanePrompts.Of(exam),
            Optional = LanePrompts.Optional(exam),
            Missing = MissingWords.Of(exam, steps),
            MissingSteps = [.. MissingWords.Lacking(steps).Select(step => ClinicWords.Steps[step.Step])],
            Sizes = [.. Sizes(exam)],
            Judgements = [.. JudgementViews.Holding(exam).OrderBy(j => j.Sequence).Select(Of)],
            EyeStatuses = [.. EyeStatuses(exam)],
            Reminders = LaneReminding.Of(exam, settings),
            BeforeDrops = beforeDrops,
            Gaps = [.. Gaps(exam).Select(GapWords)],
            ChartLine = ChartText.OneLine(exam),
        };
    }

    private static LaneStep Of(StepStatus step) =>
        new(
            ClinicWords.Steps[step.Step],
            step.State == StepState.AcceptedNotExamined ? "accepted" : Shown.Word(step.State),
            Text.HouseWords.Of(step.Step),
            [.. step.Missing.Select(eye => ClinicWords.Eyes[eye])]
        );

    private static IEnumerable<LaneEyeStatus> EyeStatuses(Exam exam) =>
        EyeFacts
            .Both.ToArray()
            .Select(eye => exam.EyeStatuses.LastOrDefault(s => s.Eye == eye && s.WithdrawnBy is null))
            .OfType<EyeStatusRecord>()
            .Select(status => new LaneEyeStatus(
                ClinicWords.Eyes[status.Eye],
                ExamViews.Conditions(status.Conditions),
                status.Who.Value
            ));

    /// <summary>Under a light that was said, the size that counts; without one, the latest.</summary>
    private static IEnumerable<LaneSize> Sizes(Exam exam)
    {
        foreach (var eye in EyeFacts.Both.ToArray())
        {
            foreach (var light in (RoomLight[])[RoomLight.Bright, RoomLight.Dim])
            {
                if (PupilSizes.Of(exam, eye, light) is { } size)
                {
                    yield return Of(exam, size.Capture);
                }
            }

            if (exam.Captures.LastOrDefault(c => c.Eye == eye && c.Light is null) is { } without)
            {
                yield return Of(exam, without);
            }
        }
    }

    private static LaneSize Of(Exam exam, Capture capture)
    {
        var diameter = PupilSizes.Measure(exam, capture, exam.Corrections?[capture.Eye] ?? Correction.None);
        return new LaneSize(
            ClinicWords.Eyes[capture.Eye],
            capture.Light is { } light ? ClinicWords.Lights[light] : null,
            diameter.Millimetres,
            diameter.ExpandedUncertaintyMillimetres,
            capture.CompletedBy.Value
        );
    }

    private static LaneJudgement Of(JudgementRecord judgement) =>
        new(
            judgement.Entry.ToString(),
            JudgementSyntax.Write(judgement.Judgement),
            JudgementWords.Of(judgement.Judgement),
            judgement.Who.Value,
            JudgementWords.StepOf(judgement.Judgement) is { } step ? ClinicWords.Steps[step] : ""
        );

    /// <summary>
    /// What an examiner should know of. Taking back is a person's own deed, seen at once in the answers; a line that is back after it was
    /// said to be lost stands as connected. Without such words before it, its coming back is all that tells of the interruption.
    /// </summary>
    private static IEnumerable<Incident> Gaps(Exam exam)
    {
        var isLost = false;
        foreach (var incident in exam.Incidents.Where(one => one.Kind != IncidentKind.EntryWithdrawn))
        {
            var wasLost = isLost;
            isLost = incident.Kind switch
            {
                IncidentKind.LineLost or IncidentKind.LineStalled => true,
                IncidentKind.LineBack => false,
                _ => isLost,
            };
            if (!wasLost || incident.Kind != IncidentKind.LineBack)
            {
                yield return incident;
            }
        }
    }

    private static string GapWords(Incident incident) =>
        incident.Detail.Length == 0
            ? IncidentWords.Of(incident.Kind)
            : $"{IncidentWords.Of(incident.Kind)} ({incident.Detail})";
}
