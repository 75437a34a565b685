using CsCheck;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Diameters;

/// <summary>
/// A comparison uses the terms that do not cancel (JCGM 100:2008, 5.2.2). Worked out by hand: at d0 = 5 mm the line has the variance
/// 1e-4 mm² from readings and 4e-4 from discs, its slope 1e-6 and 4e-6, and the set of discs shares 0.03 mm; each setting of the edges has
/// 0.04 mm. At 5 mm a diameter's variance is 5e-4 + 9e-4 + 1.6e-3 = 3e-3 mm².
/// </summary>
public class SharedCorrectionTests
{
    private static readonly CorrectionLine Line = new(5, 0.1, 0.01, new(1e-4, 1e-6, 0), 6)
    {
        FromDiscs = new(4e-4, 4e-6, 0),
        Common = new(0.03),
    };

    [Fact]
    public void A_diameter_alone_has_all_of_its_uncertainty() =>
        Assert.Equal(Math.Sqrt(3e-3), At(5, Eye.Right).StandardUncertaintyMillimetres, 12);

    [Fact]
    public void Between_the_eyes_the_offset_of_the_discs_cancels_and_the_lines_do_not() =>
        // 2·3e-3 − 2·9e-4
        Assert.Equal(
            2 * Math.Sqrt(4.2e-3),
            Comparison.ExpandedUncertaintyOfDifference(At(5, Eye.Right), At(5, Eye.Left)),
            12
        );

    [Fact]
    public void Between_two_visits_the_whole_line_cancels_at_one_diameter() =>
        // Only the two settings are left.
        Assert.Equal(
            2 * Math.Sqrt(3.2e-3),
            Comparison.ExpandedUncertaintyOfDifference(At(5, Eye.Right), At(5, Eye.Right)),
            12
        );

    [Fact]
    public void Between_two_diameters_of_one_scale_the_slope_counts_by_their_distance() =>
        // 3.2e-3 + 4²·5e-6
        Assert.Equal(
            2 * Math.Sqrt(3.28e-3),
            Comparison.ExpandedUncertaintyOfDifference(At(3, Eye.Left), At(7, Eye.Left)),
            12
        );

    [Fact]
    public void Under_different_certificates_nothing_cancels()
    {
        var independent = 2 * Math.Sqrt(6e-3);
        Assert.Equal(
            independent,
            Comparison.ExpandedUncertaintyOfDifference(At(5, Eye.Right), At(5, Eye.Right, 2)),
            12
        );
        Assert.Equal(independent, Comparison.ExpandedUncertaintyOfDifference(At(5, Eye.Right), At(5, Eye.Left, 2)), 12);
        // Nor with a correction that no certificate stands behind.
        var plain = DiameterUncertainty.Of(new(5000), new(0), new(40), Line);
        Assert.Equal(independent, Comparison.ExpandedUncertaintyOfDifference(At(5, Eye.Right), plain), 12);
    }

    [Fact]
    public void A_sum_is_more_uncertain_by_what_is_shared() =>
        // 2·3e-3 + 2·9e-4
        Assert.Equal(
            2 * Math.Sqrt(7.8e-3),
            Comparison.ExpandedUncertaintyOf((1, At(5, Eye.Right)), (1, At(5, Eye.Left))),
            12
        );

    [Fact]
    public void A_change_of_the_difference_between_the_eyes_has_the_four_settings_only() =>
        Assert.Equal(
            2 * Math.Sqrt(6.4e-3),
            Comparison.ExpandedUncertaintyOf(
                (1, At(5, Eye.Right)),
                (-1, At(5, Eye.Left)),
                (-1, At(5, Eye.Right)),
                (1, At(5, Eye.Left))
            ),
            12
        );

    [Fact]
    public void How_far_a_scale_lies_off_its_line_never_cancels()
    {
        var bent = Line with { Straightness = new(0.02, IsFromReadings: false) };
        var one = DiameterUncertainty.Of(new(5000), new(0), new(40), new CertifiedCorrection(1, Eye.Right, bent));
        // 3.2e-3 + 2·4e-4
        Assert.Equal(2 * Math.Sqrt(4e-3), Comparison.ExpandedUncertaintyOfDifference(one, one), 12);
    }

    [Fact]
    public void What_cancels_can_decide()
    {
        // Right 5.26, left 5.00 mm as read, with the slope of 0.01: 0.2626 ± 0.1296 mm against 0.4 mm; as independent ± 0.155 mm.
        var (right, left) = (At(5.26, Eye.Right), At(5, Eye.Left));
        Assert.Equal(LimitVerdict.Within, Comparison.Against(right, left, 0.4));
        Assert.Equal(LimitVerdict.CannotTell, Comparison.Against(right, At(5, Eye.Left, 2), 0.4));
    }

    [Fact]
    public void No_comparison_is_ever_surer_than_its_settings() =>
        Gen.Select(
                Gen.Double[1, 9].Array[4],
                Gen.Int[1, 2].Array[4],
                Gen.Bool.Array[4],
                Gen.Double[-0.99, 0.99],
                Gen.Double[0, 0.1]
            )
            .Sample(
                (at, certificates, isRight, correlation, common) =>
                {
                    var line = Line with { FromReadings = new(1e-4, 1e-6, correlation * 1e-5), Common = new(common) };
                    var terms = at.Select(
                            (d, i) =>
                                (
                                    i % 2 == 0 ? 1 : -1,
                                    DiameterUncertainty.Of(
                                        new((int)(d * 1000)),
                                        new(0),
                                        new(40),
                                        new CertifiedCorrection(
                                            certificates[i],
                                            isRight[i] ? Eye.Right : Eye.Left,
                                            line
                                        )
                                    )
                                )
                        )
                        .ToArray();
                    Assert.True(Comparison.ExpandedUncertaintyOf(terms) >= (2 * Math.Sqrt(4 * 1.6e-3)) - 1e-12);
                }
            );

    /// <summary>
    /// Setting 0.1 mm, steps of 0.01 mm (1.6667e-5), line 1e-6, the set 0.05 mm: of the difference of both eyes
    /// 2·(0.01 + 1.6667e-5 + 1e-6) are left, of the change since a visit under the same certificate 2·(0.01 + 1.6667e-5).
    /// </summary>
    [Fact]
    public void Exams_under_one_certificate_are_compared_so()
    {
        const string calibrated =
            "meet A; mode measure; bench calibration all 2; finish; issue 1 common=0.05; bright; +1000;";
        const string exam = "open Q-1001; +1000; pair R 3200; pair L 3100; ready; +1000;";
        var folded = Script.Run(calibrated + exam + exam);
        var equality = SizeEquality.Of(folded[2], RoomLight.Bright);
        Assert.Equal(2 * Math.Sqrt(2 * 0.0100176666667), equality.ExpandedUncertaintyMillimetres!.Value, 7);
        var alone = equality.Diameters!.Right.StandardUncertaintyMillimetres;
        Assert.Equal(Math.Sqrt(0.0125176666667), alone, 7);

        var input = new CriteriaInput { Exam = folded[2], Earlier = [folded[1]] };
        var visits = 2 * input.LimitsInUse.BetweenVisits.Millimetres;
        var changed = Findings
            .Of(input)
            .Single(f => f is { Criterion: "size-changed", Eye: Eye.Right, Light: RoomLight.Bright });
        Assert.Equal(Math.Sqrt((4 * 2 * 0.0100166666667) + (visits * visits)), changed.ExpandedUncertainty!.Value, 7);
    }

    private static Diameter At(double rawMillimetres, Eye scale, long certificate = 1) =>
        DiameterUncertainty.Of(
            new((int)Math.Round(rawMillimetres * 1000)),
            new(0),
            new(40),
            new CertifiedCorrection(certificate, scale, Line)
        );
}
