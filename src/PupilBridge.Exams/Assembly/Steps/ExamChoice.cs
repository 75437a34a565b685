using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Which exam an event belongs to: the one within which its time surely lies, or none. Events of an instrument come in
/// order, so that whatever follows an event of an exam is surely after that exam's beginning.
/// </summary>
internal static class ExamChoice
{
    private enum Fit
    {
        Inside,
        Before,
        Uncertain,
        After,
    }

    /// <summary>The exam that takes an event, opened now if need be; null if none does.</summary>
    public static ExamId? For(Workspace work, Happening happening)
    {
        var lane = work.Lane(happening.Serial);
        if (lane.Pending is { Ends: not null } end && end.When.Sequence == happening.When.Sequence)
            return null;

        var isEvidence = Evidence.Is(lane, happening.Event);
        var (taker, fit, border) = Peek(work, lane, happening.When);
        if (taker is { } id)
        {
            if (isEvidence && !lane.IsFresh && id == lane.OpenExam)
                return Orphan(work, happening, OrphanReason.Remnant);
            if (id == lane.OpenExam)
                EnterOpen(work, lane, id);
            if (isEvidence)
                work.Put(work.Lane(happening.Serial) with { Pending = null });
            return id;
        }

        if (!isEvidence && !Begins(lane, work.Book.Profile.Closing.PassedStopMilliseconds, happening))
            return null;
        if (fit == Fit.Uncertain)
            return isEvidence ? Unplaced(work, happening, border) : null;
        if (!lane.IsFresh)
            return isEvidence ? Orphan(work, happening, OrphanReason.Remnant) : null;
        return Borders.OpenByItself(work, happening);
    }

    /// <summary>The exam that would take an event of this moment; null if none would.</summary>
    public static ExamId? Taker(Workspace work, Happening happening) =>
        Peek(work, work.Lane(happening.Serial), happening.When).Taker;

    /// <summary>
    /// The exam's first event: from here on the conditions that the instrument already told of are the exam's.
    /// </summary>
    public static void EnterOpen(Workspace work, LaneState lane, ExamId id)
    {
        if (lane.OpenExamHasEvents)
            return;
        work.Put(lane with { OpenExamHasEvents = true });
        work.Change(id, exam => CarryIn(exam, lane));
    }

    public static Exam CarryIn(Exam exam, LaneState lane)
    {
        if (lane.Light is { } light && exam.Light.Count == 0)
            exam = exam with { Light = [light] };
        if (lane.Fixation is { } fixation && exam.Fixations.Count == 0)
            exam = exam with { Fixations = [fixation] };
        if (lane.Dial is { } dial && exam.Dial.Count == 0)
            exam = exam with { Dial = [dial] };
        return exam with { Instrument = exam.Instrument ?? lane.Identity };
    }

    /// <summary>Who takes an event of this moment, how surely, and the exam whose border left it in doubt.</summary>
    private static (ExamId? Taker, Fit Fit, ExamId? Border) Peek(Workspace work, LaneState lane, Moment when)
    {
        if (lane.OpenExam is { } open && work.Find(open) is { } exam)
        {
            var fit = lane.OpenExamHasEvents ? Fit.Inside : FitOpening(exam.Opening.When.At, when);
            if (fit == Fit.Inside)
                return (open, fit, null);
            if (fit == Fit.Uncertain)
                return (null, fit, open);
        }

        for (var i = lane.Recent.Count - 1; i >= 0; i--)
        {
            var window = lane.Recent[i];
            var fit = FitWindow(window, when);
            if (fit == Fit.Inside)
                return (window.Exam, fit, null);
            // What lies after an exam that holds events lies after all that were before it.
            if (fit == Fit.Uncertain || window.HasEvents)
                return (null, fit, window.Exam);
        }

        return (null, Fit.After, null);
    }

    private static Fit FitOpening(UtcTime opened, Moment when)
    {
        if (when.Earliest >= opened)
            return Fit.Inside;
        return when.Latest < opened ? Fit.Before : Fit.Uncertain;
    }

    private static Fit FitWindow(ExamWindow window, Moment when)
    {
        if (window.EndedByEvent || when.Earliest >= window.To.At)
            return Fit.After;
        if (when.Latest >= window.To.At)
            return Fit.Uncertain;
        return window.HasEvents ? Fit.Inside : FitOpening(window.From.At, when);
    }

    private static bool Begins(LaneState lane, int passedStopMilliseconds, Happening happening) =>
        lane.Pending is { } pending
        && Evidence.IsCondition(happening.Event)
        && happening.When.MillisecondsSince(pending.When) >= passedStopMilliseconds;

    /// <summary>An event that joins neither side of a border is told of by the exam whose border it is.</summary>
    private static ExamId? Unplaced(Workspace work, Happening happening, ExamId? border)
    {
        var detail = string.Create(
            CultureInfo.InvariantCulture,
            $"event {happening.EventSequence}, {happening.Event.Kind}, its time uncertain by {happening.When.UncertaintyMilliseconds} ms"
        );
        work.Change(border, exam => exam.WithIncident(IncidentKind.EventUnplaced, happening.When, detail));
        return Orphan(work, happening, OrphanReason.TimeUncertain);
    }

    private static ExamId? Orphan(Workspace work, Happening happening, OrphanReason reason)
    {
        work.Add(new EventOrphaned(work.Sequence, happening.Serial, happening.When, reason));
        return null;
    }
}
