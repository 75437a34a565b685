using PupilBridge.Cohort.Population;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Truth;

/// <content>Expected sizes, change, and how the exam was done.</content>
internal sealed partial class Oracle
{
    // Bradley JC et al., J Refract Surg 2011;27(3):202-207 (abstract): range by age, after 2 min at 1 lux.
    private static (double Least, double Most)? Decade(double years) =>
        years switch
        {
            < 18 => null,
            < 20 => (5.6, 7.5),
            < 30 => (5.7, 8.8),
            < 40 => (5.3, 8.7),
            < 50 => (4.5, 8.2),
            < 60 => (4.4, 7.2),
            < 70 => (3.5, 7.5),
            < 80 => (4.6, 6.0),
            < 81 => (4.1, 5.3),
            _ => null,
        };

    // The simulator's own form of Watson and Yellott 2012. The spread: 2.1 mm up to 9 cd/m², 1.05 from 4400, straight in the
    // logarithm between (ours; see docs/criteria.md).
    private void Expectations()
    {
        foreach (var light in new[] { RoomLight.Bright, RoomLight.Dim })
        {
            var field = Lighting.Room(Lux(light));
            var part = Math.Log(field.Luminance / 9) / Math.Log(4400.0 / 9);
            var spread = 2.1 - (1.05 * Math.Clamp(part, 0, 1));
            var flux = SteadySize.EffectiveFlux(field.Luminance, field.AreaSquareDegrees, 2);
            var expected = SteadySize.Millimetres(flux, person.Eyes.AgeYears);
            var sizes = eyes.Settled(Lux(light));
            foreach (var eye in EyeFacts.Both)
            {
                answers[new("size-beyond-age-and-light", eye, light)] = new(Math.Abs(sizes[eye] - expected) > spread);
                if (light == RoomLight.Dim)
                {
                    var decade = Decade(person.Eyes.AgeYears);
                    answers[new("size-beyond-decade", eye, light)] = new(
                        decade is { } d && (sizes[eye] < d.Least || sizes[eye] > d.Most)
                    );
                }
            }
        }
    }

    // What changed is what was drawn as changed; the scatter between two days is no change.
    private void Changes()
    {
        var eyesThen = person.Eyes.Eyes.Select(
            (eye, e) => e with { SizeOffsetMillimetres = e.SizeOffsetMillimetres - person.ChangeMillimetres[eye] }
        );
        var then = new TrueEyes(person.Eyes with { Eyes = eyesThen });
        foreach (var light in new[] { RoomLight.Bright, RoomLight.Dim })
        {
            var (today, before) = (eyes.Settled(Lux(light)), then.Settled(Lux(light)));
            foreach (var eye in EyeFacts.Both)
                answers[new("size-changed", eye, light)] = new(Math.Abs(today[eye] - before[eye]) > 0.1);
            var change = today.Right - today.Left - (before.Right - before.Left);
            var isChanged = Math.Abs(change) > 0.1;
            answers[new("anisocoria-changed", Light: light)] = new(isChanged, isChanged ? Larger(change) : null);
        }
    }

    private void Quality()
    {
        foreach (var block in new[] { Block.Direct, Block.SwingShort, Block.SwingLong })
            answers[new("timing-off", Block: block)] = new(done.OffTime.Contains(block));
        Say("lamp-balance-unchecked", person.LampCheckDays > 365);
        foreach (var eye in EyeFacts.Both)
            Say("eye-status-unreliable", eye, person.Conditions[eye] != EyeConditions.None);
        Say("fixation-wrong", person.NearSlip != NearSlip.None && !WasLeftOut(person.NearSlip));
        Say("exam-incomplete", done.LeftOut.Any(step => step != Exams.Profiles.ExamStep.Consensual));
    }

    private bool WasLeftOut(NearSlip where) =>
        where switch
        {
            NearSlip.DimSizes => done.LeftOut.Contains(Exams.Profiles.ExamStep.SizesDim),
            NearSlip.Direct => done.LeftOut.Contains(Exams.Profiles.ExamStep.Direct),
            _ => done.LeftOut.Contains(Exams.Profiles.ExamStep.SwingShort)
                && done.LeftOut.Contains(Exams.Profiles.ExamStep.SwingLong),
        };
}
