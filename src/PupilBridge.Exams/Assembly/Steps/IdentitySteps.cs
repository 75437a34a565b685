using System.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>An instrument told who it is.</summary>
internal static class IdentitySteps
{
    public static void Met(Workspace work, InstrumentMet met)
    {
        var lane = work.Lane(met.Serial);
        if (Read(met, work.Sequence) is not { } facts)
        {
            work.Put(lane);
            work.Ignore("The instrument's identity cannot be read; what it said before still stands.");
            return;
        }

        var when = work.Now(met.At);
        if (lane.Identity is { } before && before with { Sequence = facts.Sequence } != facts)
        {
            // Half a pair on one scale and half on another is none.
            RestSteps.Refuse(work, met.Serial, PairRefusalReason.ScaleUnknown, work.Sequence);
            MarkSteps.Refuse(work, met.Serial, PairRefusalReason.ScaleUnknown, work.Sequence);
            work.Change(lane.OpenExam, e => e.WithIncident(IncidentKind.IdentityChanged, when, ""));
            lane = work.Lane(met.Serial);
        }

        work.Change(lane.OpenExam, e => (e with { Instrument = e.Instrument ?? facts }).WithEntry(work.Sequence));
        work.Put(lane with { Identity = facts });
    }

    private static InstrumentFacts? Read(InstrumentMet met, JournalSequence sequence)
    {
        IdentityHead? head = null;
        ScaleDescription? right = null;
        ScaleDescription? left = null;
        foreach (var text in met.RawLines)
        {
            if (!TryRead(text, out var line))
                continue;
            if (line.Kind == InstrumentLineKind.Identity)
                head = line.Identity;
            else if (line.Kind == InstrumentLineKind.Scale && line.Scale.Eye == Eye.Right)
                right = line.Scale.Scale;
            else if (line.Kind == InstrumentLineKind.Scale)
                left = line.Scale.Scale;
        }

        if (head is not { } id || right is not { } r || left is not { } l)
            return null;
        return new(sequence, id.Model.ToString(), id.Firmware.ToString(), id.Abilities, new() { Right = r, Left = l });
    }

    private static bool TryRead(string text, out InstrumentLine line)
    {
        line = default;
        if (text.Length > WireLimits.MaxContentBytes || !Ascii.IsValid(text))
            return false;
        return InstrumentLineDecoder.TryDecode(Encoding.ASCII.GetBytes(text), out line, out _);
    }
}
