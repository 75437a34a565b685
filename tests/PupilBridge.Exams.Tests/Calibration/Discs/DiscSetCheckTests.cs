using PupilBridge.Exams.Calibration.Discs;
using static PupilBridge.Exams.Calibration.Discs.DiscSetFault;

namespace PupilBridge.Exams.Tests.Calibration.Discs;

/// <summary>Sets of discs that can calibrate, and such that cannot.</summary>
public sealed class DiscSetCheckTests
{
    private static readonly DiscSet Good = new()
    {
        Name = "Quay discs",
        CertificateNumber = "QD-17",
        CertifiedBy = "Quayside gauge room",
        Certified = new DateOnly(2026, 3, 1),
        Expires = new DateOnly(2028, 3, 1),
        CommonUncertaintyMillimetres = 0.001,
        Discs = [new("a", 2, 0.002), new("b", 4, 0.002), new("c", 8, 0.002)],
    };

    public static TheoryData<DiscSetFault, Func<DiscSet, DiscSet>> Faults =>
        new()
        {
            { Nameless, set => set with { CertificateNumber = " " } },
            { Nameless, set => set with { Discs = [.. set.Discs, new("", 5, 0.001)] } },
            { TooFewDiscs, set => set with { Discs = [.. set.Discs.Take(2)] } },
            { NameTwice, set => set with { Discs = [.. set.Discs, new("a", 5, 0.001)] } },
            { ImpossibleDiameter, set => set with { Discs = [.. set.Discs, new("d", 4000, 0.001)] } },
            { ImpossibleDiameter, set => set with { Discs = [.. set.Discs, new("d", 0, 0)] } },
            { ImpossibleDiameter, set => set with { Discs = [.. set.Discs, new("d", double.NaN, 0.001)] } },
            { ImpossibleUncertainty, set => set with { Discs = [.. set.Discs, new("d", 5, -0.001)] } },
            { ImpossibleUncertainty, set => set with { CommonUncertaintyMillimetres = double.NaN } },
            { AllAlike, set => set with { Discs = [new("a", 4, 0), new("b", 4, 0), new("c", 4, 0)] } },
            { ExpiresBeforeCertified, set => set with { Expires = new DateOnly(2026, 2, 1) } },
        };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_fault_is_named(DiscSetFault fault, Func<DiscSet, DiscSet> spoil) =>
        Assert.Contains(fault, DiscSetCheck.Of(spoil(Good)));

    [Fact]
    public void A_good_set_has_none() => Assert.Empty(DiscSetCheck.Of(Good));

    [Fact]
    public void It_may_be_used_on_the_last_day_and_not_after()
    {
        Assert.False(Good.IsExpired(new DateOnly(2028, 3, 1)));
        Assert.True(Good.IsExpired(new DateOnly(2028, 3, 2)));
        Assert.False((Good with { Expires = null }).IsExpired(new DateOnly(2099, 1, 1)));
    }
}
