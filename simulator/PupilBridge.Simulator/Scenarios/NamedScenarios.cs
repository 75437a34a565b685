using System.Collections.Immutable;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Scenarios;

/// <summary>The scenarios that can be asked for by name, and any number of others by seed.</summary>
public static class NamedScenarios
{
    /// <summary>All named scenarios.</summary>
    public static ImmutableArray<Scenario> All { get; } =
    [
        Named("normal", 1001, 34, new(), new()),
        Named("right-rapd-mild", 1002, 41, new() { AfferentLossLogUnits = 0.4 }, new()),
        Named("right-rapd-marked", 1003, 38, new() { AfferentLossLogUnits = 1.4 }, new()),
        Named("left-rapd", 1004, 52, new(), new() { AfferentLossLogUnits = 0.8 }),
        Named(
            "right-fixed",
            1005,
            45,
            new()
            {
                LightGain = 0,
                NearGain = 0,
                UndrivenMillimetres = 6.2,
            },
            new()
        ),
        Named("light-near", 1006, 57, new() { LightGain = 0.05 }, new() { LightGain = 0.05 }),
        Named("anisocoria", 1007, 29, new(), new() { SizeOffsetMillimetres = 0.6 }),
        Named("irregular", 1008, 48, new(), new() { Shape = PupilShape.Irregular, LightGain = 0.7 }),
        Named("child", 1009, 8, new(), new()),
        Named("older", 1010, 79, new(), new()),
    ];

    /// <summary>Finds a scenario by its name, in any case.</summary>
    /// <param name="name">The name.</param>
    /// <returns>The scenario; null if there is none.</returns>
    public static Scenario? Find(string name) =>
        All.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Another person and examiner for each seed.</summary>
    /// <param name="seed">Any number.</param>
    /// <returns>The scenario; the same for the same seed.</returns>
    public static Scenario FromSeed(long seed)
    {
        var chance = new Chance(seed, "cast");
        (EyeTruth Right, EyeTruth Left) eyes = chance.NextUnit() switch
        {
            < 0.55 => (new EyeTruth(), new EyeTruth()),
            < 0.70 => OneOf(chance, new EyeTruth { AfferentLossLogUnits = Math.Round(chance.NextBetween(0.3, 2), 1) }),
            < 0.85 => OneOf(
                chance,
                new EyeTruth { SizeOffsetMillimetres = Math.Round(chance.NextBetween(0.2, 1.2), 1) }
            ),
            < 0.92 => OneOf(chance, new EyeTruth { Shape = PupilShape.Oval, LightGain = 0.8 }),
            < 0.97 => OneOf(chance, new EyeTruth { LightGain = 0, UndrivenMillimetres = chance.NextBetween(4, 7) }),
            _ => (new EyeTruth { LightGain = 0.05 }, new EyeTruth { LightGain = 0.05 }),
        };
        return new Scenario
        {
            Name = FormattableString.Invariant($"seed-{seed}"),
            PatientNumber = FormattableString.Invariant($"Q-{1100 + (int)((ulong)seed % 800)}"),
            Patient = new PatientTruth
            {
                Label = "drawn by seed",
                AgeYears = chance.NextInteger(18, 80),
                Eyes = new PerEye<EyeTruth> { Right = eyes.Right, Left = eyes.Left },
                UnrestMillimetres = chance.NextBetween(0.02, 0.08),
            },
            Examiner = new ExaminerTraits
            {
                Initials = Initials(chance),
                SettingScatterMillimetres = chance.NextBetween(0.04, 0.14),
                SlipProbability = 0.03,
                FirstEye = chance.Happens(0.8) ? Eye.Right : Eye.Left,
                RepeatsASetting = chance.Happens(0.3),
                RepeatsSwingShort = chance.Happens(0.25),
                DarkWait = TimeSpan.FromSeconds(chance.NextInteger(10, 40)),
            },
            Seed = seed,
        };
    }

    private static (EyeTruth Right, EyeTruth Left) OneOf(Chance chance, EyeTruth affected) =>
        chance.Happens(0.5) ? (affected, new EyeTruth()) : (new EyeTruth(), affected);

    private static string Initials(Chance chance) =>
        new([(char)('A' + chance.NextInteger(0, 26)), (char)('A' + chance.NextInteger(0, 26))]);

    private static Scenario Named(string name, int number, double age, EyeTruth right, EyeTruth left) =>
        new()
        {
            Name = name,
            PatientNumber = FormattableString.Invariant($"Q-{number}"),
            Patient = new PatientTruth
            {
                Label = name,
                AgeYears = age,
                Eyes = new PerEye<EyeTruth> { Right = right, Left = left },
            },
            Examiner = new ExaminerTraits { Initials = number % 2 == 0 ? "HV" : "MK" },
            Seed = number,
        };
}
