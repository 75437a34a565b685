using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Statistics.Agreement;

namespace PupilBridge.Exams.Tests.Statistics.Agreement;

/// <summary>Two examiners' grades, against published tables.</summary>
public sealed class KappaTests
{
    /// <summary>Cohen J, Educ Psychol Meas 1960;20:37-46, Table 2b (counts read in a reproduction).</summary>
    private static readonly GradeTable Cohen1960 = GradeTable.Counted(
        [1, 2, 3],
        new double[,]
        {
            { 88, 14, 18 },
            { 10, 40, 10 },
            { 2, 6, 12 },
        }
    );

    /// <summary>Cohen J, Psychol Bull 1968;70:213-220 (shares of 200 and results read in a manual that cites it).</summary>
    private static readonly GradeTable Cohen1968 = GradeTable.Counted(
        [1, 2, 3],
        new[,]
        {
            { .44, .07, .09 },
            { .05, .20, .05 },
            { .01, .03, .06 },
        },
        200
    );

    /// <summary>A worked printout of a statistics package, read in a public test suite that compares itself with it.</summary>
    private static readonly GradeTable Printout = GradeTable.Counted(
        [1, 2, 3],
        new double[,]
        {
            { 0, 4, 1 },
            { 0, 8, 0 },
            { 0, 1, 5 },
        }
    );

    [Fact]
    public void Plain_kappa_of_the_paper_of_1960()
    {
        var kappa = Kappa.Plain(Cohen1960);
        Assert.Equal(0.4915254, kappa.Value, 7);
        Assert.Equal(0.70, kappa.Observed, 10);
        Assert.Equal(0.41, kappa.ByChance, 10);
    }

    /// <summary>Published: .492, and .348 with disagreements of 1, 3 and 6.</summary>
    [Fact]
    public void Weighted_kappa_of_the_paper_of_1968()
    {
        double[,] disagreement =
        {
            { 0, 1, 3 },
            { 1, 0, 6 },
            { 3, 6, 0 },
        };
        Assert.Equal(0.492, Kappa.Plain(Cohen1968).Value, 3);
        Assert.Equal(0.4915254, Kappa.Plain(Cohen1968).Value, 7);
        var weighted = Kappa.Of(Cohen1968, (i, j) => 1 - (disagreement[i, j] / 6)).Value;
        Assert.Equal(0.348, weighted, 3);
        Assert.Equal(0.3478261, weighted, 7);
    }

    /// <summary>Published: .353 where a disagreement one way counts other than the same the other way.</summary>
    [Fact]
    public void Weighted_kappa_with_weights_that_differ_by_direction()
    {
        double[,] disagreement =
        {
            { 0, 1, 4 },
            { 1, 0, 6 },
            { 2, 2, 0 },
        };
        var weighted = Kappa.Of(Cohen1968, (i, j) => 1 - (disagreement[i, j] / 6)).Value;
        Assert.Equal(0.353, weighted, 3);
        Assert.Equal(0.3533835, weighted, 7);
    }

    /// <summary>The same table with the usual weights, computed by another program.</summary>
    [Theory]
    [InlineData(KappaWeights.Linear, 0.4736842)]
    [InlineData(KappaWeights.Quadratic, 0.4545455)]
    public void Weighted_kappa_with_the_usual_weights(KappaWeights weights, double expected) =>
        Assert.Equal(expected, Kappa.Weighted(Cohen1968, weights).Value, 7);

    /// <summary>80 patients, 32 both yes, 35 both no, 13 split, chance 0.5: 0.675 (read in a teaching text).</summary>
    [Fact]
    public void Two_grades_of_eighty_patients()
    {
        // How the 13 divide is not told; chance is one half if the first examiner said yes to half, as with 5 and 8.
        var table = GradeTable.Counted(
            [0, 1],
            new double[,]
            {
                { 35, 5 },
                { 8, 32 },
            }
        );
        Assert.Equal(0.5, Kappa.Plain(table).ByChance, 10);
        Assert.Equal(0.675, Kappa.Plain(table).Value, 10);
    }

    [Fact]
    public void Standard_error_and_interval_are_those_of_the_printout()
    {
        var plain = Kappa.Plain(Printout);
        Assert.Equal(0.4842, plain.Value, 4);
        Assert.Equal(0.1380, plain.StandardError, 4);
        Assert.Equal(0.2137, plain.Interval.Low, 4);
        Assert.Equal(0.7547, plain.Interval.High, 4);
        var linear = Kappa.Weighted(Printout, KappaWeights.Linear);
        Assert.Equal(0.4701, linear.Value, 4);
        Assert.Equal(0.1457, linear.StandardError, 4);
        Assert.Equal(0.1845, linear.Interval.Low, 4);
        Assert.Equal(0.7558, linear.Interval.High, 4);
    }

    [Fact]
    public void Pairs_are_counted_into_the_same_table()
    {
        int[,] counts =
        {
            { 88, 14, 18 },
            { 10, 40, 10 },
            { 2, 6, 12 },
        };
        var pairs =
            from i in Enumerable.Range(0, 3)
            from j in Enumerable.Range(0, 3)
            from _ in Enumerable.Range(0, counts[i, j])
            select (One: i + 1.0, Other: j + 1.0);
        var list = pairs.ToList();
        var table = GradeTable.Of(PairedReadings.Of([.. list.Select(p => p.One)], [.. list.Select(p => p.Other)]));
        Assert.Equal(200, table.Count);
        Assert.Equal(Kappa.Plain(Cohen1960), Kappa.Plain(table));
    }

    /// <summary>The distance from 2 to 4 is the same whether or not the 3 between them is in the table.</summary>
    [Fact]
    public void A_grade_that_nobody_gave_keeps_its_place()
    {
        double[] one = [0, 1, 2, 4, 4, 2, 1, 0];
        double[] other = [0, 1, 4, 4, 2, 2, 1, 1];
        var found = Kappa.Weighted(GradeTable.Of(PairedReadings.Of(one, other)), KappaWeights.Linear).Value;
        var all = new double[5, 5];
        foreach (var (i, j) in one.Zip(other))
            all[(int)i, (int)j]++;
        var declared = Kappa.Weighted(GradeTable.Counted([0, 1, 2, 3, 4], all), KappaWeights.Linear).Value;
        Assert.Equal(declared, found, 12);
    }

    [Fact]
    public void Full_agreement_is_one_and_one_grade_throughout_is_refused()
    {
        var full = Kappa.Plain(GradeTable.Of(PairedReadings.Of([1, 2, 3, 3], [1, 2, 3, 3])));
        Assert.Equal(1, full.Value, 12);
        Assert.Equal(0, full.StandardError, 6);
        var refusal = Assert.Throws<StatisticsRefusedException>(() =>
            Kappa.Plain(GradeTable.Of(PairedReadings.Of([2, 2, 2], [2, 2, 2])))
        );
        Assert.Equal(StatisticsFault.NoVariation, refusal.Fault);
    }
}
