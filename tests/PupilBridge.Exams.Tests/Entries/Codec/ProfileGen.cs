using CsCheck;
using PupilBridge.Exams.Profiles;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random profiles.</summary>
internal static class ProfileGen
{
    public static readonly Gen<Profile> Any = Gen.Select(
            Text,
            Gen.Int,
            Steps,
            Gen.Int.Array[16, 16],
            Gen.Bool,
            Gen.Select(AnyGrade, Text.Array[5, 5])
        )
        .Select(
            (name, version, steps, n, measured, words) =>
                new Profile
                {
                    Name = name,
                    Version = version,
                    Steps = steps,
                    Direct = new()
                    {
                        StimuliPerEye = n[0],
                        DwellMilliseconds = n[1],
                        GapMilliseconds = n[2],
                    },
                    SwingShort = new()
                    {
                        DwellMilliseconds = n[3],
                        Alternations = n[4],
                        MaxGapMilliseconds = n[5],
                    },
                    SwingLong = new()
                    {
                        DwellMilliseconds = n[6],
                        Alternations = n[7],
                        MaxGapMilliseconds = n[8],
                    },
                    DwellTolerancePercent = n[9],
                    Captures = new()
                    {
                        PairWithinMilliseconds = n[10],
                        SmallestDiameter = new(n[11]),
                        LargestDiameter = new(n[12]),
                        SettingRepeatability = new(n[13]),
                        SettingRepeatabilityIsMeasured = measured,
                    },
                    Light = LightRules.Default with { DimAtMostMillilux = n[14] },
                    Closing = new() { SilenceMilliseconds = n[15], PassedStopMilliseconds = n[0] },
                    Chart = ChartRules.Default with { MinimumDirectGrade = words.Item1 },
                    Legend = new() { Version = n[3], Grades = [.. words.Item2] },
                }
        );
}
