using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>What the service's own entries do.</summary>
internal static class SystemSteps
{
    public static void Apply(Workspace work, SystemEntry entry)
    {
        switch (entry)
        {
            case ServiceStarted started:
                work.SetInForce(book => book with { ProgramVersion = started.ProgramVersion });
                work.Add(new EntryNoted(work.Sequence, entry));
                break;
            case ProfileInForce inForce:
                work.SetInForce(book => book with { Profile = inForce.Profile });
                work.Add(new EntryNoted(work.Sequence, entry));
                break;
            case SilenceReached silent:
                Borders.EndBySilence(work, silent.Serial, silent.At);
                if (!work.TouchedAnExam)
                    work.Ignore("No exam of this instrument has been silent for long enough.");
                break;
            case InstrumentMet met:
                IdentitySteps.Met(work, met);
                break;
            case EventsLost lost:
                LossSteps.Journalled(work, lost);
                break;
            case EventsConflict conflict:
                Conflict(work, conflict);
                break;
            case LineChanged line:
                Line(work, line);
                break;
            default:
                work.Add(new EntryNoted(work.Sequence, entry));
                break;
        }
    }

    private static void Conflict(Workspace work, EventsConflict conflict)
    {
        var lane = work.Lane(conflict.Serial);
        var detail = $"event {conflict.Sequence} came again with other content; the first one stands";
        var exam = lane.OpenExam ?? (lane.Recent.Count > 0 ? lane.Recent[^1].Exam : null);
        var when = work.Now(conflict.At);
        work.Change(exam, e => e.WithIncident(IncidentKind.Conflict, when, detail).WithEntry(work.Sequence));
        work.Put(lane);
    }

    private static void Line(Workspace work, LineChanged line)
    {
        if (line.Serial is not { } serial)
        {
            work.Add(new EntryNoted(work.Sequence, line));
            return;
        }

        var lane = work.Lane(serial);
        // The first "connected" is no return.
        if (lane.Line is not null || line.State != LineState.Connected)
        {
            var kind = line.State switch
            {
                LineState.Lost => IncidentKind.LineLost,
                LineState.Stalled => IncidentKind.LineStalled,
                _ => IncidentKind.LineBack,
            };
            var when = work.Now(line.At);
            work.Change(lane.OpenExam, e => e.WithIncident(kind, when, line.Reason).WithEntry(work.Sequence));
        }

        work.Put(lane with { Line = line.State });
    }
}
