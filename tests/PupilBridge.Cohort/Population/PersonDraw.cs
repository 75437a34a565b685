using PupilBridge.Instrument;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Population;

/// <summary>Draws the people of the clinic. The same seed and number give the same person, whoever else is drawn.</summary>
public static class PersonDraw
{
    /// <summary>Draws one person.</summary>
    /// <param name="rates">How often each sign is drawn.</param>
    /// <param name="seed">Seed of the cohort.</param>
    /// <param name="number">Which person, from 0.</param>
    /// <returns>The person.</returns>
    public static Person Draw(Prevalences rates, long seed, int number)
    {
        ArgumentNullException.ThrowIfNull(rates);
        var own = unchecked((seed * 1_000_003) + number);
        var chance = new Chance(own, "person");
        var signs = new SignDraw(rates, chance);
        var eyes = signs.Draw();
        var circumstances = new Chance(own, "circumstances");
        var person = Circumstances(rates, circumstances, own, number, eyes, signs);
        return circumstances.Happens(rates.EarlierVisit) ? WithEarlier(rates, circumstances, person) : person;
    }

    private static Person Circumstances(
        Prevalences rates,
        Chance chance,
        long seed,
        int number,
        PatientTruth eyes,
        SignDraw signs
    ) =>
        new()
        {
            Number = number,
            Seed = seed,
            Eyes = eyes,
            ChangeMillimetres = new() { Right = 0, Left = 0 },
            Conditions = signs.Conditions,
            LightsSwapped = chance.Happens(rates.LightsSwapped),
            NearSlip = chance.Happens(rates.NearSlip) ? (NearSlip)chance.NextInteger(1, 4) : NearSlip.None,
            Dark = Dark(chance.NextUnit()),
            TimingFault = chance.Happens(rates.TimingFault) ? Faulty(chance.NextInteger(0, 3)) : Block.None,
            TimingFactor = chance.Happens(0.5) ? chance.NextBetween(1.06, 1.3) : chance.NextBetween(0.7, 0.94),
            LampCheckDays = chance.NextInteger(1, 500),
            LampCheckKnown = chance.Happens(0.9),
            LuminanceMeasured = chance.Happens(0.8),
        };

    private static DarkPlan Dark(double unit) =>
        unit switch
        {
            < 0.15 => DarkPlan.Settled,
            < 0.45 => DarkPlan.TwoMinutes,
            < 0.9 => DarkPlan.WithLag,
            _ => DarkPlan.Unequal,
        };

    private static Block Faulty(int which) =>
        which switch
        {
            0 => Block.Direct,
            1 => Block.SwingShort,
            _ => Block.SwingLong,
        };

    // The change is what came since; the scatter between days lies on the earlier visit.
    private static Person WithEarlier(Prevalences rates, Chance chance, Person person)
    {
        PerEye<double> change = new() { Right = 0, Left = 0 };
        if (chance.Happens(rates.Changed))
        {
            var by = (chance.Happens(0.5) ? 1 : -1) * chance.NextBetween(0.3, 2);
            change = chance.NextInteger(0, 3) switch
            {
                0 => new() { Right = by, Left = 0 },
                1 => new() { Right = 0, Left = by },
                _ => new() { Right = by, Left = by },
            };
        }

        var shared = Math.Sqrt(rates.DayToDayShared) * chance.NextGaussian();
        double Day() =>
            rates.DayToDayMillimetres * (shared + (Math.Sqrt(1 - rates.DayToDayShared) * chance.NextGaussian()));
        PerEye<double> day = new() { Right = Day(), Left = Day() };
        return person with
        {
            ChangeMillimetres = change,
            BrightLuxBefore = chance.Happens(rates.OtherRoomBefore) ? 500 : Rooms.BrightLux,
            Before = person.Eyes with
            {
                Eyes = person.Eyes.Eyes.Select(
                    (eye, e) => e with { SizeOffsetMillimetres = e.SizeOffsetMillimetres - change[eye] + day[eye] }
                ),
            },
        };
    }
}
