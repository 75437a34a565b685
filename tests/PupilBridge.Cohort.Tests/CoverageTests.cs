using PupilBridge.Cohort.Calibrations;
using PupilBridge.Exams.Calibration;

namespace PupilBridge.Cohort.Tests;

/// <summary>
/// The stated 95 % interval holds the true diameter; the measuring program does the same with more trials
/// (<c>coverage</c>, docs/calibration.md).
/// </summary>
public sealed class CoverageTests
{
    private const int Trials = 3_000;
    private const long Seed = 5;

    // Four standard errors of 3,000 trials at 95 % are 1.6 %.
    [Theory]
    [InlineData(3, 3)]
    [InlineData(5, 3)]
    [InlineData(12, 10)]
    public void Ninety_five_percent_of_intervals_hold_the_truth(int discs, int repeats) =>
        Assert.InRange(CoverageRun.Of(Seed, new(discs, repeats), new(), Trials).Percent, 93.4, 96.6);

    public static TheoryData<ContributionKind> Contributions => [.. Enum.GetValues<ContributionKind>()];

    [Theory]
    [MemberData(nameof(Contributions))]
    public void Without_what_dominates_they_do_not(ContributionKind kind)
    {
        var (design, truth) = Dominated.By(kind);
        var found = CoverageRun.Of(Seed, design, truth, Trials, kind);
        Assert.InRange(found.Percent, 93.4, 97.5);
        Assert.True(found.PercentWithout < 85, $"{found.PercentWithout} % without {kind}");
    }

    // The chance of calling a straight scale bent is 5 % by the level of the check; four standard errors are 1.6 %.
    [Fact]
    public void A_straight_scale_is_called_bent_as_seldom_as_stated() =>
        Assert.InRange(
            100.0 * CoverageRun.Of(Seed, new(8, 5), new() { StepMicrometres = 0 }, Trials).Bent / Trials,
            3.4,
            6.6
        );
}
