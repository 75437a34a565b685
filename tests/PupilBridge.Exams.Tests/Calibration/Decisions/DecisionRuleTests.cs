using PupilBridge.Exams.Calibration.Decisions;
using static PupilBridge.Exams.Calibration.Decisions.ConformityStatement;

namespace PupilBridge.Exams.Tests.Calibration.Decisions;

/// <summary>Statements of conformity by rules that are agreed beforehand.</summary>
public sealed class DecisionRuleTests
{
    private static readonly DecisionRule Guarded = new(DecisionRuleKind.GuardBand, 0.10);

    /// <summary>
    /// ILAC-G8:09/2019, 4.2: pass up to TL − w, conditional pass up to TL, conditional fail up to TL + w, fail beyond; here TL = 0.10 mm
    /// and w = U = 0.02 mm, so that the acceptance limit is 0.08 mm.
    /// </summary>
    [Theory]
    [InlineData(0, Pass)]
    [InlineData(0.0799, Pass)]
    [InlineData(-0.0799, Pass)]
    [InlineData(0.0801, ConditionalPass)]
    [InlineData(-0.0999, ConditionalPass)]
    [InlineData(0.10, ConditionalPass)]
    [InlineData(0.1001, ConditionalFail)]
    [InlineData(-0.1199, ConditionalFail)]
    [InlineData(0.1201, Fail)]
    [InlineData(-0.5, Fail)]
    public void The_guard_band_gives_four_statements(double error, ConformityStatement statement) =>
        Assert.Equal(statement, Guarded.Decide(error, 0.02));

    [Theory]
    [InlineData(0.10, Pass)]
    [InlineData(-0.10, Pass)]
    [InlineData(0.1001, Fail)]
    public void Simple_acceptance_looks_at_the_result_alone(double error, ConformityStatement statement) =>
        Assert.Equal(statement, new DecisionRule(DecisionRuleKind.SimpleAcceptance, 0.10).Decide(error, 0.02));

    [Fact]
    public void An_uncertainty_as_large_as_the_limit_lets_nothing_pass() =>
        Assert.Equal(ConditionalPass, Guarded.Decide(0, 0.11));

    [Theory]
    [InlineData(double.NaN, 0.02)]
    [InlineData(0.01, double.NaN)]
    [InlineData(0.01, -0.02)]
    [InlineData(0.01, double.PositiveInfinity)]
    public void What_is_no_result_is_not_decided(double error, double expanded) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Guarded.Decide(error, expanded));

    /// <summary>JCGM 106:2012, example 1 (from memory): limit −5.40 V, estimate −5.47 V, u = 0.05 V, probability Φ(1.40) = 0.919243.</summary>
    [Fact]
    public void The_chance_of_conformity_of_the_guides_example() =>
        Assert.Equal(0.919243, ConformityChance.Below(-5.47, 0.05, -5.40), 6);

    /// <summary>
    /// At the acceptance limit for u = 0.01 mm the risk is 2.275 % by w = 2u and 5.0 % by w = 1.645u (ILAC-G8:09/2019, its table of rules
    /// from memory; the numbers are those of the normal distribution).
    /// </summary>
    [Theory]
    [InlineData(0.08, 0.02275, 5)]
    [InlineData(0.08355, 0.0500, 4)]
    [InlineData(0.0804, 0.0250, 4)]
    public void The_risk_of_a_wrong_pass_at_the_border(double error, double risk, int digits) =>
        Assert.Equal(risk, 1 - ConformityChance.Within(error, 0.01, 0.10), digits);
}
