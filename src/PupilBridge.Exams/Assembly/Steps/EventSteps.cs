using System.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>One event on its way: what it says, when, and from which entry.</summary>
internal readonly record struct Happening(SerialNumber Serial, long EventSequence, InstrumentEvent Event, Moment When);

/// <summary>What an instrument's event does.</summary>
internal static class EventSteps
{
    public static void Apply(Workspace work, InstrumentReported reported)
    {
        var happening = Read(work, reported);
        var lane = work.Lane(reported.Serial);
        if (EventOrder.IsTaken(lane, reported.Boot, reported.Sequence))
        {
            work.Ignore($"Event {reported.Sequence} of boot {reported.Boot} was taken already.");
            return;
        }

        EventOrder.Advance(work, happening);
        Borders.BeforeEvent(work, happening);
        if (happening.Event.Kind == InstrumentEventKind.EventsLost)
        {
            // Before the choice of an exam: a gap may reach into the exam before this one.
            LossSteps.Told(work, happening);
            return;
        }

        var exam = ExamChoice.For(work, happening);
        if (exam is { } id)
            work.Change(id, e => Enter(e, happening, Evidence.Is(lane, happening.Event)));
        Dispatch(work, happening, exam);
    }

    private static Exam Enter(Exam exam, Happening happening, bool isEvidence)
    {
        var entered = exam.WithEntry(happening.When.Sequence).WithActivity(happening.When);
        if (exam.TakesEvents || !isEvidence || exam.Incidents.Any(i => i.Kind == IncidentKind.ArrivedLate))
            return entered;
        return entered.WithIncident(IncidentKind.ArrivedLate, happening.When, "");
    }

    private static void Dispatch(Workspace work, Happening happening, ExamId? exam)
    {
        switch (happening.Event.Kind)
        {
            case InstrumentEventKind.ModeChanged:
                DialSteps.Moved(work, happening, exam);
                break;
            case InstrumentEventKind.EdgeMarked:
                MarkSteps.Marked(work, happening, exam);
                break;
            case InstrumentEventKind.ScaleAtRest:
                RestSteps.Rested(work, happening, exam);
                break;
            case InstrumentEventKind.LampSwitched:
                LampSteps.Switched(work, happening, exam);
                break;
            case InstrumentEventKind.RoomLight:
                ConditionSteps.RoomTold(work, happening, exam);
                break;
            case InstrumentEventKind.FixationChanged:
                ConditionSteps.FixationTold(work, happening, exam);
                break;
            case InstrumentEventKind.LensMoved:
                var lens = new LensMove(happening.When, happening.Event.LensIn);
                work.Change(exam, e => e with { Lens = e.Lens.Add(lens) });
                break;
            case InstrumentEventKind.LampOutput:
                // It tells of the instrument, not of the eye: it is kept and concludes nothing of the exam.
                var output = new LampOutputReading(happening.Event.Eye, happening.Event.LampMillilux, happening.When);
                work.Change(exam, e => e with { LampOutputs = e.LampOutputs.Add(output) });
                break;
            case InstrumentEventKind.SwitchedOff:
                Borders.SwitchedOff(work, happening, exam);
                break;
            case InstrumentEventKind.FaultReported:
                var fault = $"fault {happening.Event.FaultCode}: {happening.Event.FaultText}";
                work.Change(exam, e => e.WithIncident(IncidentKind.InstrumentFault, happening.When, fault));
                break;
            default:
                work.Change(exam, e => e.WithIncident(IncidentKind.UnknownEvent, happening.When, ""));
                break;
        }
    }

    private static Happening Read(Workspace work, InstrumentReported reported)
    {
        var read = Decode(reported.RawLine);
        var moment = new Moment(
            work.Sequence,
            reported.HappenedAt,
            Math.Max(0, reported.UncertaintyMilliseconds),
            reported.Boot,
            read?.Tick
        );
        return new(reported.Serial, reported.Sequence, read ?? default, moment);
    }

    private static InstrumentEvent? Decode(string rawLine)
    {
        if (rawLine.Length > WireLimits.MaxContentBytes || !Ascii.IsValid(rawLine))
            return null;
        Span<byte> bytes = stackalloc byte[WireLimits.MaxContentBytes];
        var length = Encoding.ASCII.GetBytes(rawLine, bytes);
        var ok = InstrumentLineDecoder.TryDecode(bytes[..length], out var line, out _);
        return ok && line.Kind == InstrumentLineKind.Event ? line.Event : null;
    }
}
