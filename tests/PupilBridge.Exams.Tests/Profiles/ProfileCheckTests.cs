using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Tests.Profiles;

public class ProfileCheckTests
{
    private static readonly Profile Good = Profile.Default;

    public static TheoryData<string, object> Wrong =>
        new()
        {
            { "Name is blank", Good with { Name = " " } },
            { "Version is 0", Good with { Version = 0 } },
            { "Steps is empty", Good with { Steps = [] } },
            { "Steps names a step twice", Good with { Steps = [ExamStep.Shape, ExamStep.Shape] } },
            { "Steps names 77, which is no step", Good with { Steps = [(ExamStep)77] } },
            {
                "Direct.StimuliPerEye is 0; it must be 1 to 20.",
                Good with
                {
                    Direct = Good.Direct with { StimuliPerEye = 0 },
                }
            },
            { "Direct.DwellMilliseconds is 5", Good with { Direct = Good.Direct with { DwellMilliseconds = 5 } } },
            { "SwingShort.Alternations is 0", Good with { SwingShort = Good.SwingShort with { Alternations = 0 } } },
            {
                "SwingLong.MaxGapMilliseconds is -1",
                Good with
                {
                    SwingLong = Good.SwingLong with { MaxGapMilliseconds = -1 },
                }
            },
            { "DwellTolerancePercent is 101", Good with { DwellTolerancePercent = 101 } },
            {
                "Captures.SmallestDiameter is not below",
                Good with
                {
                    Captures = Good.Captures with { SmallestDiameter = new(12_000) },
                }
            },
            {
                "Captures.SettingRepeatability is -1 µm",
                Good with
                {
                    Captures = Good.Captures with { SettingRepeatability = new(-1) },
                }
            },
            {
                "Light.DimAtMostMillilux is not below",
                Good with
                {
                    Light = Good.Light with { DimAtMostMillilux = 100_000 },
                }
            },
            {
                "Light.DarkSettledAfterMilliseconds is -1",
                Good with
                {
                    Light = Good.Light with { DarkSettledAfterMilliseconds = -1 },
                }
            },
            {
                "Closing.SilenceMilliseconds is 0",
                Good with
                {
                    Closing = Good.Closing with { SilenceMilliseconds = 0 },
                }
            },
            { "Chart.EqualWithin is 0 µm", Good with { Chart = Good.Chart with { EqualWithin = new(0) } } },
            {
                "the text of grade 1",
                Good with
                {
                    Legend = new() { Version = 2, Grades = ["a", " ", "c", "d", "e"] },
                }
            },
            {
                "the text of grade 4",
                Good with
                {
                    Legend = new() { Version = 2, Grades = ["a", "b", "c", "d", "e\nf"] },
                }
            },
            {
                "give other words a higher version",
                Good with
                {
                    Legend = new() { Version = 1, Grades = ["a", "b", "c", "d", "e"] },
                }
            },
        };

    [Fact]
    public void The_programs_own_profile_has_no_fault() => Assert.Empty(ProfileCheck.Faults(Good));

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_fault_is_named_alone(string fault, object profile) =>
        Assert.Contains(fault, Assert.Single(ProfileCheck.Faults((Profile)profile)), StringComparison.Ordinal);

    [Fact]
    public void All_faults_are_named_at_once() =>
        Assert.Equal(2, ProfileCheck.Faults(Good with { Name = "", Version = -1 }).Length);
}
