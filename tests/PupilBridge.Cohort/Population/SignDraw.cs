using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Population;

/// <summary>Draws what is true of two eyes.</summary>
internal sealed class SignDraw(Prevalences rates, Chance chance)
{
    private PerEye<EyeTruth> eyes = new() { Right = new(), Left = new() };

    public PerEye<EyeConditions> Conditions { get; private set; } =
        new() { Right = EyeConditions.None, Left = EyeConditions.None };

    public PatientTruth Draw()
    {
        var age = Math.Floor(chance.NextBetween(18, 86));
        BaseSizes();
        var label = MainSign(age);
        if (chance.Happens(rates.NotRound))
            Change(OneEye(), e => e with { Shape = chance.Happens(0.5) ? PupilShape.Oval : PupilShape.Irregular });
        if (chance.Happens(rates.Drops))
            Treat(EyeConditions.Drops, e => e with { LightGain = 0.03, NearGain = 0.03 });
        else if (chance.Happens(rates.Surgery))
            Treat(EyeConditions.SurgeryOrInjury, e => e with { LightGain = e.LightGain * 0.5 });
        return new()
        {
            Label = label,
            AgeYears = age,
            Eyes = eyes,
        };
    }

    private void BaseSizes()
    {
        var (common, difference) = (
            rates.SizeMillimetres * chance.NextGaussian(),
            chance.Happens(rates.MarkedDifference)
                ? (chance.Happens(0.5) ? 1 : -1) * chance.NextBetween(0.6, 1.8)
                : rates.SimpleDifferenceMillimetres * chance.NextGaussian()
        );
        eyes = new()
        {
            Right = new() { SizeOffsetMillimetres = common + (difference / 2) },
            Left = new() { SizeOffsetMillimetres = common - (difference / 2) },
        };
    }

    private string MainSign(double age)
    {
        var at = chance.NextUnit();
        bool Is(double rate) => (at -= rate) < 0 && at >= -rate;
        if (Is(rates.Sympathetic))
            return Sympathetic(age);
        if (Is(rates.Parasympathetic))
            return Say(
                "parasympathetic",
                () => Change(OneEye(), e => e with { LightGain = chance.NextBetween(0.2, 0.7) })
            );
        if (Is(rates.FixedPupil))
            return Say("fixed pupil", FixedPupil);
        if (Is(rates.Afferent))
            return Say("afferent loss", () => Lose(OneEye(), Math.Round(chance.NextBetween(0.3, 3), 1)));
        if (Is(rates.Blind))
            return Say("blind eye", () => Lose(OneEye(), 6));
        if (Is(rates.AfferentBoth))
            return Say("afferent loss of both", LoseBoth);
        if (Is(rates.LightNearDissociation))
            return Say("light-near dissociation", Dissociate);
        if (Is(rates.SmallBoth))
            return Say(
                "small",
                () =>
                    Both(e => e with { SizeOffsetMillimetres = e.SizeOffsetMillimetres - chance.NextBetween(2.6, 3.6) })
            );
        return Is(rates.WideBoth)
            ? Say("wide", () => Both(e => e with { LightGain = chance.NextBetween(0.1, 0.4) }))
            : "none";
    }

    // Smaller by so much in darkness, a quarter of it in the bright room: the gain of light makes up for the rest.
    private string Sympathetic(double age)
    {
        var smaller = chance.NextBetween(0.6, 1.8);
        var dark = SteadySize.Millimetres(0, age);
        var room = Lighting.Room(Rooms.BrightLux);
        var bright = SteadySize.Millimetres(SteadySize.EffectiveFlux(room.Luminance, room.AreaSquareDegrees, 2), age);
        var slow = chance.NextBetween(2, 10);
        Change(
            OneEye(),
            e =>
                e with
                {
                    UndrivenMillimetres = dark - smaller,
                    LightGain = 1 - (0.75 * smaller / (dark - bright)),
                    DilationTimes = slow,
                }
        );
        return "sympathetic";
    }

    private void FixedPupil()
    {
        var still = OneEye();
        Change(still, e => e with { LightGain = 0, NearGain = 0 });
        if (chance.Happens(0.5))
            Lose(OneEye(), Math.Round(chance.NextBetween(0.6, 3), 1));
    }

    private void LoseBoth()
    {
        var loss = chance.NextBetween(1.5, 4);
        Both(e => e with { AfferentLossLogUnits = loss });
    }

    private void Dissociate()
    {
        var gain = chance.NextBetween(0.02, 0.25);
        EyeTruth Of(EyeTruth e) => e with { LightGain = gain, UndrivenMillimetres = 5 };
        if (chance.Happens(0.5))
            Both(Of);
        else
            Change(OneEye(), Of);
    }

    private void Lose(Eye eye, double logUnits) => Change(eye, e => e with { AfferentLossLogUnits = logUnits });

    private void Treat(EyeConditions conditions, Func<EyeTruth, EyeTruth> change)
    {
        var eye = OneEye();
        Conditions = Conditions.With(eye, conditions);
        Change(eye, change);
    }

    private void Both(Func<EyeTruth, EyeTruth> change)
    {
        Change(Eye.Right, change);
        Change(Eye.Left, change);
    }

    private void Change(Eye eye, Func<EyeTruth, EyeTruth> change) => eyes = eyes.With(eye, change(eyes[eye]));

    private Eye OneEye() => chance.Happens(0.5) ? Eye.Right : Eye.Left;

    private static string Say(string label, Action draw)
    {
        draw();
        return label;
    }
}
