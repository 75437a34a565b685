namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>
/// The six intraclass correlations of Shrout PE, Fleiss JL, Psychol Bull 1979;86:420-428: which one is right depends on how
/// the raters were chosen, so all stand side by side under the paper's own numbers.
/// </summary>
/// <param name="Single1">ICC(1,1): each subject rated by other raters, drawn anew; one rating.</param>
/// <param name="Single2">ICC(2,1): the same raters throughout, drawn from many; one rating.</param>
/// <param name="Single3">ICC(3,1): these raters alone are meant; one rating; differences of level between them do not count.</param>
/// <param name="Mean1">ICC(1,k): as the first, for the mean of all k ratings.</param>
/// <param name="Mean2">ICC(2,k): as the second, for the mean of all k ratings.</param>
/// <param name="Mean3">ICC(3,k): as the third, for the mean of all k ratings.</param>
public sealed record IntraclassCorrelations(
    IntraclassCorrelation Single1,
    IntraclassCorrelation Single2,
    IntraclassCorrelation Single3,
    IntraclassCorrelation Mean1,
    IntraclassCorrelation Mean2,
    IntraclassCorrelation Mean3
)
{
    private const double UpperTail = (1 + Quantiles.Level) / 2;

    /// <summary>Computes all six.</summary>
    /// <param name="table">The ratings.</param>
    /// <returns>The correlations with their 95 % confidence intervals.</returns>
    public static IntraclassCorrelations Of(RatingTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        var k = table.Raters;
        var (b, w, j, e) = (table.SubjectsSquare, table.WithinSquare, table.RatersSquare, table.ResidualSquare);
        var first = FromRatio(b / w, table.Subjects - 1, table.Subjects * (k - 1), k);
        var third = FromRatio(b / e, table.Subjects - 1, (table.Subjects - 1) * (k - 1), k);
        var second = (b - e) / (b + ((k - 1) * e) + (k * (j - e) / table.Subjects));
        var ofSecond = IntervalOfSecond(table, second);
        return new(
            new((b - w) / (b + ((k - 1) * w)), first),
            new(second, ofSecond),
            new((b - e) / (b + ((k - 1) * e)), third),
            new((b - w) / b, OfMean(first, k)),
            new((b - e) / (b + ((j - e) / table.Subjects)), OfMean(ofSecond, k)),
            new((b - e) / b, OfMean(third, k))
        );
    }

    /// <summary>From the interval of an F ratio to the interval of the correlation for one rating.</summary>
    private static Interval FromRatio(double ratio, int above, int below, int k)
    {
        var low = ratio / Quantiles.F(above, below, UpperTail);
        var high = ratio * Quantiles.F(below, above, UpperTail);
        return new(OfOne(low, k), OfOne(high, k));
    }

    private static double OfOne(double ratio, int k) =>
        double.IsPositiveInfinity(ratio) ? 1 : (ratio - 1) / (ratio + k - 1);

    /// <summary>
    /// The paper's interval for raters drawn from many, with approximate degrees of freedom v; written with mean squares, so
    /// that no division by a residual of 0 occurs. Not numbers where v comes out as none.
    /// </summary>
    private static Interval IntervalOfSecond(RatingTable table, double value)
    {
        var (n, k) = (table.Subjects, table.Raters);
        var (b, j, e) = (table.SubjectsSquare, table.RatersSquare, table.ResidualSquare);
        if (e <= 0 && j <= 0)
            return new(1, 1);
        var ofRaters = k * value * j;
        var ofRest = ((n * (1 + ((k - 1) * value))) - (k * value)) * e;
        var v =
            (k - 1)
            * (n - 1)
            * (ofRaters + ofRest)
            * (ofRaters + ofRest)
            / (((n - 1) * ofRaters * ofRaters) + (ofRest * ofRest));
        if (!(v > 0))
            return new(double.NaN, double.NaN);
        var noise = (k * j) + (((k * n) - k - n) * e);
        var toLow = Quantiles.F(n - 1, v, UpperTail);
        var toHigh = Quantiles.F(v, n - 1, UpperTail);
        return new(
            n * (b - (toLow * e)) / ((toLow * noise) + (n * b)),
            n * ((toHigh * b) - e) / (noise + (n * toHigh * b))
        );
    }

    /// <summary>From one rating to the mean of k (Spearman and Brown).</summary>
    private static Interval OfMean(Interval one, int k) => new(OfMean(one.Low, k), OfMean(one.High, k));

    private static double OfMean(double one, int k) => k * one / (1 + ((k - 1) * one));
}

/// <summary>One intraclass correlation.</summary>
/// <param name="Value">1 where raters tell subjects apart without fault; below 0 where less than by chance.</param>
/// <param name="Interval">Its 95 % confidence interval.</param>
public sealed record IntraclassCorrelation(double Value, Interval Interval);
