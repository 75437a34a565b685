using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Notation;

/// <summary>What a reader of the chart must know beside the values: nothing of it is ever left out.</summary>
internal static class ChartNotes
{
    public static ImmutableArray<string> Of(Exam exam) =>
        [
            .. Status(exam),
            .. Eyes(exam),
            .. ContradictionNotes.Of(exam),
            .. Fixation(exam),
            .. Timing(exam),
            .. Incidents(exam),
            .. Left(exam),
        ];

    private static IEnumerable<string> Status(Exam exam)
    {
        if (exam.Status == ExamStatus.SetAside)
            yield return "this exam was set aside";
        else if (exam.Status == ExamStatus.Open)
            yield return "not made ready for review";
        if (exam.Patient is null)
            yield return "not attached to a patient";
    }

    private static IEnumerable<string> Eyes(Exam exam)
    {
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            if (ExamConditions.StatusOf(exam, eye) is { } status && status != EyeConditions.None)
                yield return $"{Words.Of(eye)}: {Words.Of(status)}";
            if (CurrentJudgements.SlowToDilate(exam, eye) is not null)
                yield return $"{Words.Of(eye)} slow to dilate";
        }
    }

    private static IEnumerable<string> Fixation(Exam exam)
    {
        var reminders = Reminders.Of(exam);
        foreach (var r in reminders.Where(r => r.Kind == ReminderKind.TakenWithNearFixation))
        {
            var what = r.Step is { } step ? Words.Of(step) : "a test";
            yield return r.Eye is { } eye
                ? $"{what}, {Words.Of(eye)}: with near fixation"
                : $"{what}: with near fixation";
        }

        if (reminders.Any(r => r.Kind == ReminderKind.NearInOtherLight))
            yield return "near and direct response were not tested in like light";
        if (SizeEquality.Of(exam, RoomLight.Dim).Obstacle == EqualityObstacle.DarkUnequalAndUnsettled)
            yield return "dim sizes after unequal times in the dark, not settled";
        var unknown = exam.Captures.Where(c => c.Light is null).Count;
        if (unknown > 0)
            yield return Counted(unknown, "capture", "in a light that was not said, not shown");
    }

    private static IEnumerable<string> Timing(Exam exam)
    {
        var off = exam.Stimuli.Where(s =>
            s.DwellVerdict is TimingVerdict.TooShort or TimingVerdict.TooLong || s.GapVerdict == TimingVerdict.TooLong
        );
        if (off.Count > 0)
            yield return Counted(off.Count, "stimulus", "outside the timing tolerance", "stimuli");
        foreach (var run in BlockRuns.Of(exam).GroupBy(r => r.Block).Where(g => g.Count() > 1))
            yield return $"{Name(run.Key)} block run {run.Count()} times";
    }

    private static IEnumerable<string> Incidents(Exam exam)
    {
        foreach (var incident in exam.Incidents)
        {
            var text = incident.Kind switch
            {
                IncidentKind.EventsLost => $"GAP: {incident.Detail}",
                IncidentKind.Conflict => $"CONFLICT: {incident.Detail}",
                IncidentKind.InstrumentFault => $"instrument {incident.Detail}",
                IncidentKind.Restarted => "the instrument started anew during the exam",
                IncidentKind.ArrivedLate => "part of it arrived after the exam was over",
                IncidentKind.ArrivedAfterSigning => $"part of it arrived {incident.Detail}",
                IncidentKind.IdentityUnknown => "the instrument did not tell how its scales count: no sizes",
                IncidentKind.IdentityChanged => "the instrument changed what it says of itself during the exam",
                IncidentKind.LampOutOfTurn => $"a lamp out of turn ({incident.Detail})",
                _ => null,
            };
            if (text is not null)
                yield return text;
        }

        var unplaced = exam.Incidents.Where(i => i.Kind == IncidentKind.EventUnplaced).Count;
        if (unplaced > 0)
            yield return "GAP: " + Counted(unplaced, "event", "at its border in no exam, the time too uncertain");

        var sealedOff = exam.RefusedJudgements.Where(j => j.Reason == JudgementRefusal.ExamSigned).Count;
        var refused = exam.RefusedJudgements.Count - sealedOff;
        if (refused > 0)
            yield return Counted(refused, "judgement", "refused: there was no opportunity for it");
        if (sealedOff > 0)
            yield return Counted(sealedOff, "judgement", "refused: the exam was signed");
    }

    private static IEnumerable<string> Left(Exam exam)
    {
        foreach (var step in ExamSteps.Of(exam))
        {
            if (step.State == StepState.AcceptedNotExamined)
                yield return $"{Words.Of(step.Step)}: accepted as not examined";
            else if (step is { Step: Profiles.ExamStep.Near, State: StepState.Skipped })
                yield return "near response was due and not examined";
        }
    }

    private static string Counted(int count, string one, string what, string? many = null) =>
        count == 1 ? $"1 {one} {what}" : $"{count} {many ?? one + "s"} {what}";

    private static string Name(Block block) =>
        block switch
        {
            Block.Direct => "direct",
            Block.SwingShort => "short-dwell",
            Block.SwingLong => "long-dwell",
            _ => "near",
        };
}
