using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Statistics.Agreement;

namespace PupilBridge.Exams.Tests.Statistics.Agreement;

/// <summary>
/// Shrout PE, Fleiss JL, Psychol Bull 1979;86:420-428: four judges rate six targets. Data read in four reproductions; the
/// coefficients' two digits are the paper's; seven digits were computed by another program.
/// </summary>
public sealed class IntraclassCorrelationTests
{
    private static readonly double[][] Judges =
    [
        [9, 6, 8, 7, 10, 6],
        [2, 1, 4, 1, 5, 2],
        [5, 3, 6, 2, 6, 4],
        [8, 2, 8, 6, 9, 7],
    ];

    [Fact]
    public void The_variation_divides_as_published()
    {
        var table = RatingTable.Of(Judges);
        Assert.Equal(56.208333, table.BetweenSubjects, 6);
        Assert.Equal(112.75, table.WithinSubjects, 6);
        Assert.Equal(97.458333, table.BetweenRaters, 6);
        Assert.Equal(15.291667, table.Residual, 6);
        double[] published = [11.24, 6.26, 32.49, 1.02];
        double[] squares = [table.SubjectsSquare, table.WithinSquare, table.RatersSquare, table.ResidualSquare];
        Assert.Equal(published, squares.Select(square => Math.Round(square, 2)));
        Assert.Equal(11.241667, table.SubjectsSquare, 6);
        Assert.Equal(6.263889, table.WithinSquare, 6);
        Assert.Equal(32.486111, table.RatersSquare, 6);
        Assert.Equal(1.019444, table.ResidualSquare, 6);
        Assert.Equal(1.794678, table.SubjectsSquare / table.WithinSquare, 6);
        Assert.Equal(11.027248, table.SubjectsSquare / table.ResidualSquare, 6);
    }

    [Fact]
    public void The_six_correlations_are_the_published_ones()
    {
        var icc = IntraclassCorrelations.Of(RatingTable.Of(Judges));
        double[] values =
        [
            icc.Single1.Value,
            icc.Single2.Value,
            icc.Single3.Value,
            icc.Mean1.Value,
            icc.Mean2.Value,
            icc.Mean3.Value,
        ];
        Assert.Equal([.17, .29, .71, .44, .62, .91], values.Select(value => Math.Round(value, 2)));
        Assert.Equal(
            [0.1657418, 0.2897638, 0.7148407, 0.4427971, 0.6200505, 0.9093155],
            values.Select(value => Math.Round(value, 7))
        );
    }

    /// <summary>
    /// ICC(1,1): −0.132932 to 0.722560, computed by another program. The others to two or three digits, as a statistics
    /// package prints them for these data, from memory.
    /// </summary>
    [Fact]
    public void The_intervals_are_those_of_other_programs()
    {
        var icc = IntraclassCorrelations.Of(RatingTable.Of(Judges));
        Near(-0.132932, 0.722560, icc.Single1, 6);
        Near(0.019, 0.761, icc.Single2, 3);
        Near(0.342, 0.946, icc.Single3, 3);
        Near(-0.884, 0.912, icc.Mean1, 3);
        Near(0.071, 0.927, icc.Mean2, 3);
        Near(0.676, 0.986, icc.Mean3, 3);
    }

    [Fact]
    public void Raters_who_agree_fully_reach_one()
    {
        var icc = IntraclassCorrelations.Of(
            RatingTable.Of([
                [1, 2, 3],
                [1, 2, 3],
            ])
        );
        Assert.Equal(1, icc.Single1.Value, 12);
        Assert.Equal(1, icc.Single2.Value, 12);
        Assert.Equal(1, icc.Single2.Interval.Low, 12);
        Assert.Equal(1, icc.Single3.Interval.Low, 12);
    }

    /// <summary>A rater who is always two higher costs agreement, ICC(2,1), and not consistency, ICC(3,1).</summary>
    [Fact]
    public void A_difference_of_level_counts_where_it_should()
    {
        var icc = IntraclassCorrelations.Of(
            RatingTable.Of([
                [1, 2, 3, 4],
                [3, 4, 5, 6],
            ])
        );
        Assert.Equal(1, icc.Single3.Value, 12);
        Assert.InRange(icc.Single2.Value, 0.4, 0.5);
    }

    public static TheoryData<double[][], StatisticsFault> Impossible =>
        new()
        {
            { [], StatisticsFault.TooFewRaters },
            {
                [
                    [1, 2, 3],
                ],
                StatisticsFault.TooFewRaters
            },
            {
                [
                    [],
                    [],
                ],
                StatisticsFault.TooFew
            },
            {
                [
                    [1],
                    [2],
                ],
                StatisticsFault.TooFew
            },
            {
                [
                    [1, 2],
                    [2],
                ],
                StatisticsFault.UnequalLengths
            },
            {
                [
                    [1, 2],
                    [2, double.NaN],
                ],
                StatisticsFault.NotANumber
            },
            {
                [
                    [4, 4, 4],
                    [4, 4, 4],
                ],
                StatisticsFault.NoVariation
            },
            {
                [
                    [4, 4, 4],
                    [2, 2, 2],
                ],
                StatisticsFault.NoVariation
            },
        };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void Tables_that_say_nothing_are_refused(double[][] columns, StatisticsFault fault) =>
        Assert.Equal(fault, Assert.Throws<StatisticsRefusedException>(() => RatingTable.Of(columns)).Fault);

    private static void Near(double low, double high, IntraclassCorrelation found, int digits)
    {
        Assert.Equal(low, found.Interval.Low, digits);
        Assert.Equal(high, found.Interval.High, digits);
    }
}
