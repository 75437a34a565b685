using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;
using static PupilBridge.Simulator.Tests.Eyes.Persons;

namespace PupilBridge.Simulator.Tests.Eyes;

/// <summary>
/// How the swinging-flashlight test looks on the simulated eyes, against the descriptions of Bell RA et al. "Clinical
/// grading of relative afferent pupillary defects." Arch Ophthalmol 1993;111(7):938–942 (3 s an eye): grade I (mean 0.4 log
/// units) a weak initial constriction and then greater redilatation; grade III (1.1) immediate dilatation.
/// </summary>
public class SwingingLightTests
{
    [Fact]
    public void Without_a_defect_both_eyes_do_the_same()
    {
        var (right, left) = Swing(0, 3);
        for (var i = 0; i < right.Length; i++)
        {
            Assert.Equal(right[i], left[i], 0.02);
        }

        Assert.True(right[0] - right.Min() > 0.15, "the newly lit pupil narrows first");
        Assert.True(right[^1] - right.Min() > 0.1, "and then escapes");
    }

    [Fact]
    public void At_0_4_log_units_a_weak_constriction_comes_before_the_greater_release()
    {
        var (right, left) = Swing(0.4, 3);
        Assert.InRange(right[0] - right.Min(), 0.02, 0.6 * (left[0] - left.Min()));
        Assert.True(right[^1] - right.Min() > left[^1] - left.Min());
    }

    [Fact]
    public void At_1_1_log_units_the_pupil_dilates_at_once()
    {
        var (right, left) = Swing(1.1, 3);
        Assert.True(right[0] - right.Min() < 0.02);
        Assert.True(right[^1] - right[0] > 0.5);
        Assert.True(left[0] - left[^1] > 0.5);
    }

    [Fact]
    public void The_asymmetry_grows_with_the_afferent_loss_at_both_dwells()
    {
        foreach (var dwell in new[] { 1.0, 3.0 })
        {
            var last = 0.0;
            foreach (var loss in new[] { 0.2, 0.4, 0.7, 1.1, 2.0 })
            {
                var (right, left) = Swing(loss, dwell);
                var asymmetry = (left[0] - left[^1]) - (right[0] - right[^1]);
                Assert.True(asymmetry > last, $"{loss} log units, {dwell} s: {asymmetry}");
                last = asymmetry;
            }
        }
    }

    // Recalled, of high confidence: the defect is relative, so that equal losses on both sides show none.
    [Fact]
    public void Equal_losses_show_no_asymmetry()
    {
        var both = new EyeTruth { AfferentLossLogUnits = 1 };
        var (right, left) = Swing(Quiet(both, both), 3);
        Assert.Equal(right[0] - right[^1], left[0] - left[^1], 0.02);
    }

    private static (double[] Right, double[] Left) Swing(double loss, double dwell) =>
        Swing(Quiet(right: new EyeTruth { AfferentLossLogUnits = loss }), dwell);

    // The fourth alternation: what the lit eye's pupil does during each dwell.
    private static (double[] Right, double[] Left) Swing(PatientTruth truth, double dwell)
    {
        var eyes = new SimulatedEyes(truth, Dim, 1);
        double[] right = [],
            left = [];
        for (var alternation = 0; alternation < 4; alternation++)
        {
            eyes.Show(Dim.Lit(Eye.Right, 100));
            right = Record(eyes, Eye.Right, dwell);
            eyes.Show(Dim.Lit(Eye.Left, 100));
            left = Record(eyes, Eye.Left, dwell);
        }

        return (right, left);
    }
}
