using System.Globalization;
using PupilBridge.Cohort.Examining;
using PupilBridge.Cohort.Results;
using PupilBridge.Exams.Criteria;
using Xunit.Abstractions;

namespace PupilBridge.Cohort.Tests;

/// <summary>The simulated clinic: the same seed, the same counts; and no error where nobody errs.</summary>
public sealed class CohortTests(ITestOutputHelper output)
{
    private static readonly Lazy<CohortRun> Exact = new(() => CohortRun.Of(11, 300, HumanScatter.None));

    private static readonly Lazy<CohortRun> Careful = new(() =>
        CohortRun.Of(12, 250, HumanScatter.None, new() { LightsSwapped = 0, NearSlip = 0 })
    );

    [Fact]
    public void The_same_seed_gives_the_same_counts_and_another_one_others()
    {
        var (one, again, other) = (
            CohortRun.Of(3, 40, HumanScatter.Usual),
            CohortRun.Of(3, 40, HumanScatter.Usual),
            CohortRun.Of(4, 40, HumanScatter.Usual)
        );
        Assert.Equal(Text(one), Text(again));
        Assert.NotEqual(Text(one), Text(other));
    }

    [Fact]
    public void Every_criterion_meets_its_sign_and_its_absence()
    {
        output.WriteLine(Text(Exact.Value));
        Assert.Equal(
            CriteriaCatalogue.All.Select(c => c.Id).Order(StringComparer.Ordinal),
            Exact.Value.Tallies.Keys.Order(StringComparer.Ordinal)
        );
        Assert.All(
            Exact.Value.Tallies,
            t =>
            {
                // Nobody here leaves anything out.
                Assert.Equal(t.Key != "exam-incomplete", Total(t.Value.Present) > 0);
                Assert.True(Total(t.Value.Absent) > 0, t.Key);
            }
        );
    }

    /// <summary>
    /// Rooms as labelled, far fixation throughout: then whatever is decided must be right where a criterion reads sizes beyond an
    /// uncertainty, what was seen, or what was done. (Seen to fail for the swinging
    /// test with the oracle's worse eye changed about. Sizes are coarser: with its limit of 0.4 mm at 0.6 it did not fail, since a
    /// difference is uncertain by 0.28 mm and the criteria leave what is nearer to a limit open.) Not in the list: criteria of half-step grades, which rounding decides near a limit, of
    /// patterns, for which no limit is published, and of change, where one day differs from another.
    /// </summary>
    [Theory]
    [InlineData("anisocoria-descriptive")]
    [InlineData("anisocoria-clinical")]
    [InlineData("dilation-lag")]
    [InlineData("swinging-short")]
    [InlineData("swinging-long")]
    [InlineData("rapd")]
    [InlineData("rapd-one-pupil")]
    [InlineData("shape-not-round")]
    [InlineData("dim-not-larger", false)]
    [InlineData("size-beyond-age-and-light")]
    [InlineData("size-beyond-decade")]
    [InlineData("timing-off")]
    [InlineData("lamp-balance-unchecked")]
    [InlineData("eye-status-unreliable")]
    public void Without_scatter_and_slips_what_is_decided_is_right(string id, bool isEverPresent = true)
    {
        var tally = Careful.Value.Tallies[id];
        Assert.Equal(isEverPresent, tally.Present.Decided > 0);
        Assert.True(tally.Absent.Decided > 0);
        Assert.Equal((tally.Present.Decided, 0), (tally.Present.Met, tally.Present.MetOtherEye));
        Assert.Equal(tally.Absent.Decided, tally.Absent.NotMet);
    }

    [Fact]
    public void Nothing_is_incomplete_where_nothing_was_left_out()
    {
        var tally = Exact.Value.Tallies["exam-incomplete"];
        Assert.Equal((0, 300), (Total(tally.Present), tally.Absent.NotMet));
    }

    public static string Text(CohortRun run) =>
        string.Join(
            '\n',
            run.Tallies.Select(t => $"{t.Key}: there {Text(t.Value.Present)}; not there {Text(t.Value.Absent)}")
        );

    private static int Total(Counts c) => c.Decided + c.CannotTell + c.NotExamined;

    private static string Text(Counts c) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"+{c.Met} !{c.MetOtherEye} -{c.NotMet} ?{c.CannotTell} ({string.Join(", ", c.Reasons.Select(r => $"{r.Key} {r.Value}"))}) o{c.NotExamined}"
        );
}
