using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Where one exam ends and another begins. A dial's move alone opens no exam and ends none: a stop may be merely passed. It
/// counts once something happens there, or once the dial has stayed.
/// </summary>
internal static class Borders
{
    /// <summary>Ends what is over before an event is given to an exam.</summary>
    public static void BeforeEvent(Workspace work, Happening happening)
    {
        EndBySilence(work, happening.Serial, happening.When.Earliest);
        ResolvePending(work, happening);
        EndByUnseenMeasure(work, happening);
        if (happening.Event.Kind == InstrumentEventKind.ModeChanged)
            NoteMove(work, happening);
    }

    public static void EndBySilence(Workspace work, SerialNumber serial, UtcTime now)
    {
        if (work.Lane(serial).OpenExam is not { } open || work.Find(open) is not { } exam || !Silence.IsOver(exam, now))
            return;
        var end = work.Now(Silence.EndsAt(exam));
        Close(work, exam.Id, end, ClosingReason.Silence);
    }

    public static void SwitchedOff(Workspace work, Happening happening, ExamId? exam)
    {
        RestSteps.Complete(work, happening.Serial, happening.When.Sequence);
        if (exam is { } id)
            Close(work, id, happening.When, ClosingReason.SwitchedOff);
        var lane = work.Lane(happening.Serial);
        work.Put(lane with { IsOff = true, Dial = null, Pending = null, DarkSince = null });
    }

    /// <summary>Opens an exam by an event, or by the dial's move that led to it.</summary>
    public static ExamId OpenByItself(Workspace work, Happening happening)
    {
        var lane = work.Lane(happening.Serial);
        var (when, number) = lane.Pending is { } pending
            ? (pending.When, pending.EventSequence)
            : (happening.When, happening.EventSequence);
        // Events from before an exam that is open already: their own exam ends where that one begins.
        var next = lane.OpenExam is { } open ? work.Find(open) : null;
        var exam = NewExam(work, lane, new(when, null, number)) with
        {
            Closing = next is null ? null : new(next.Opening.When, ClosingReason.AnotherOpened),
        };
        work.PutNew(ExamChoice.CarryIn(exam.WithEntry(when.Sequence), lane));
        if (next is null)
            lane = lane with { OpenExam = exam.Id, OpenExamHasEvents = true };
        else
            lane = Remember(lane, new(exam.Id, when, true, next.Opening.When, false));
        work.Put(lane with { Pending = null });
        return exam.Id;
    }

    public static Exam NewExam(Workspace work, LaneState lane, Opening opening)
    {
        // Events may arrive long after they happened: what was measured of the instrument since then is none of the exam's.
        var at = opening.When.At;
        var lamps = lane.LampBalance is { } balance && balance.At <= at ? balance : null;
        var repeatability = lane.Repeatability is { } adopted && adopted.At <= at ? adopted : null;
        return new()
        {
            Id = ExamId.OpenedBy(opening.When.Sequence),
            Serial = lane.Serial,
            Patient = null,
            Status = ExamStatus.Open,
            Opening = opening,
            Closing = null,
            LastActivity = opening.When,
            Profile = ProfileOf(work.Book.Profile, repeatability),
            ProgramVersion = work.Book.ProgramVersion,
            Instrument = lane.Identity,
            Calibration = lane.CalibrationAt(at),
            LampBalance = lamps,
            Repeatability = repeatability,
        };
    }

    private static Profile ProfileOf(Profile profile, AdoptedRepeatability? adopted) =>
        adopted is null
            ? profile
            : profile with
            {
                Captures = profile.Captures with
                {
                    SettingRepeatability = new((int)Math.Ceiling((adopted.WithinMillimetres * 1000) - 1e-6)),
                    SettingRepeatabilityIsMeasured = true,
                },
            };

    /// <summary>Ends an exam for the instrument: half-made things end with it.</summary>
    public static void Close(Workspace work, ExamId id, Moment when, ClosingReason reason)
    {
        if (work.Find(id) is not { } found)
            return;
        EndHalfMade(work, found.Serial, id, when.Sequence);
        work.Change(id, exam => exam with { Closing = new(when, reason) });
        var lane = work.Lane(found.Serial);
        var byEvent = reason is ClosingReason.SwitchedOff or ClosingReason.MeasureAgain;
        var hadEvents = lane.OpenExam == id ? lane.OpenExamHasEvents : true;
        lane = Remember(lane, new(id, found.Opening.When, hadEvents, when, byEvent));
        if (lane.OpenExam == id)
        {
            // After silence or switching off nothing runs on; after a person's word a train of stimuli may.
            var isIdle = lane.Dial is null or { Mode: InstrumentMode.Idle or InstrumentMode.Measure };
            var isFresh = byEvent || reason == ClosingReason.Silence || isIdle;
            lane = lane with { OpenExam = null, OpenExamHasEvents = false, IsFresh = isFresh };
        }

        work.Put(lane);
    }

    private static void EndHalfMade(Workspace work, SerialNumber serial, ExamId id, JournalSequence by)
    {
        if (work.Lane(serial).Rest?.Exam == id)
            RestSteps.Complete(work, serial, by);
        MarkSteps.Refuse(work, serial, PairRefusalReason.ExamEnded, by, id);
        LampSteps.LoseEnds(work, serial, id);
    }

    private static LaneState Remember(LaneState lane, ExamWindow window)
    {
        var recent = lane.Recent.Where(w => w.Exam != window.Exam).Add(window);
        return lane with { Recent = recent.Count > LaneState.KeptExams ? [.. recent.Items[1..]] : recent };
    }

    private static void ResolvePending(Workspace work, Happening happening)
    {
        var lane = work.Lane(happening.Serial);
        if (lane.Pending is not { } pending)
            return;
        var stayed = happening.When.MillisecondsSince(pending.When) >= PassedStop(work);
        if (pending.Ends is { } over && (stayed || Evidence.Is(lane, happening.Event)))
        {
            Close(work, over, pending.When, ClosingReason.MeasureAgain);
            work.Put(work.Lane(happening.Serial) with { Pending = pending with { Ends = null } });
        }

        if (happening.Event.Kind == InstrumentEventKind.ModeChanged)
            work.Put(work.Lane(happening.Serial) with { Pending = null });
    }

    /// <summary>
    /// Where events were lost and sizes are measured again after the swinging blocks, the dial's move to
    /// <c>measure</c> was among the lost ones.
    /// </summary>
    private static void EndByUnseenMeasure(Workspace work, Happening happening)
    {
        var lane = work.Lane(happening.Serial);
        if (lane.Dial is not null || lane.Pending is not null || !Evidence.IsMeasuring(lane, happening.Event))
            return;
        if (ExamChoice.Taker(work, happening) is { } taker && work.Find(taker) is { } exam && HasSwung(exam))
            Close(work, taker, happening.When, ClosingReason.MeasureAgain);
    }

    private static void NoteMove(Workspace work, Happening happening)
    {
        var lane = work.Lane(happening.Serial);
        var mode = happening.Event.Mode;
        if (mode is InstrumentMode.Idle or InstrumentMode.Measure)
            lane = lane with { IsFresh = true };
        var taker = ExamChoice.Taker(work, happening);
        if (mode == InstrumentMode.Measure && taker is { } id && work.Find(id) is { } exam && HasSwung(exam))
            lane = lane with { Pending = new(happening.When, happening.EventSequence, id) };
        else if (taker is null && mode != InstrumentMode.Idle && lane.IsFresh)
            lane = lane with { Pending = new(happening.When, happening.EventSequence, null) };
        work.Put(lane);
    }

    private static bool HasSwung(Exam exam) =>
        // On the bench the blocks are run through in any order.
        exam.Bench
            is null
        && exam.Stimuli.Any(s => s.Block is Block.SwingShort or Block.SwingLong && s.End == StimulusEnd.Complete);

    private static int PassedStop(Workspace work) => work.Book.Profile.Closing.PassedStopMilliseconds;
}
