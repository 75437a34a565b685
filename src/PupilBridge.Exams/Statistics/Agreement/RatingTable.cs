namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>Ratings of the same subjects by several raters, and how their variation divides.</summary>
/// <param name="Subjects">How many subjects, n.</param>
/// <param name="Raters">How many raters, k.</param>
/// <param name="BetweenSubjects">Sum of squares between subjects, n − 1 degrees of freedom.</param>
/// <param name="WithinSubjects">Sum of squares within subjects, n(k − 1) degrees of freedom.</param>
/// <param name="BetweenRaters">Sum of squares between raters, k − 1 degrees of freedom.</param>
/// <param name="Residual">What is left, (n − 1)(k − 1) degrees of freedom.</param>
public sealed record RatingTable(
    int Subjects,
    int Raters,
    double BetweenSubjects,
    double WithinSubjects,
    double BetweenRaters,
    double Residual
)
{
    /// <summary>Mean square between subjects.</summary>
    public double SubjectsSquare => BetweenSubjects / (Subjects - 1);

    /// <summary>Mean square within subjects.</summary>
    public double WithinSquare => WithinSubjects / (Subjects * (Raters - 1));

    /// <summary>Mean square between raters.</summary>
    public double RatersSquare => BetweenRaters / (Raters - 1);

    /// <summary>Residual mean square.</summary>
    public double ResidualSquare => Residual / ((Subjects - 1) * (Raters - 1));

    /// <summary>Divides the variation of a table of ratings.</summary>
    /// <param name="columns">One column for each rater, the subjects in the same order.</param>
    /// <returns>The sums of squares.</returns>
    /// <exception cref="StatisticsRefusedException">
    /// Fewer than two raters or subjects, unequal lengths, something that is no number, or all ratings the same.
    /// </exception>
    public static RatingTable Of(IReadOnlyList<IReadOnlyList<double>> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        Check(columns);
        var (n, k) = (columns[0].Count, columns.Count);
        var centre = Centre.Of([.. columns.SelectMany(column => column)]);
        double[] ofSubject = [.. Enumerable.Range(0, n).Select(i => Mean(columns.Select(c => centre.From(c[i]))))];
        double[] ofRater = [.. columns.Select(column => Mean(column.Select(centre.From)))];
        var (within, residual) = (new CompensatedSum(), new CompensatedSum());
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < k; j++)
            {
                var fromSubject = centre.From(columns[j][i]) - ofSubject[i];
                within.AddProduct(fromSubject, fromSubject);
                var left = fromSubject - ofRater[j];
                residual.AddProduct(left, left);
            }
        }

        var between = k * Squares(ofSubject);
        if (between + residual.Value <= Rounding(columns))
        {
            throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                "Every rater gave all subjects the same rating, so nothing can be said about how well they tell them apart."
            );
        }

        return new(n, k, between, within.Value, n * Squares(ofRater), residual.Value);
    }

    private static void Check(IReadOnlyList<IReadOnlyList<double>> columns)
    {
        if (columns.Count < 2)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TooFewRaters,
                $"At least two raters are needed, there are {columns.Count}."
            );
        }

        if (columns.Any(column => column.Count != columns[0].Count))
        {
            throw new StatisticsRefusedException(
                StatisticsFault.UnequalLengths,
                $"The raters rated {string.Join(", ", columns.Select(c => c.Count))} subjects; all must rate each one."
            );
        }

        if (columns[0].Count < 2)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"At least two subjects are needed, there are {columns[0].Count}."
            );
        }

        if (!columns.SelectMany(column => column).All(double.IsFinite))
            throw new StatisticsRefusedException(StatisticsFault.NotANumber, "A rating is no finite number.");
    }

    /// <summary>Below this, a sum of squares of all ratings is rounding.</summary>
    private static double Rounding(IReadOnlyList<IReadOnlyList<double>> columns)
    {
        var largest = columns.SelectMany(column => column).Max(Math.Abs) * 1e-12;
        return largest * largest;
    }

    private static double Squares(double[] values) => values.Sum(value => value * value);

    private static double Mean(IEnumerable<double> values) => Sample.Of([.. values]).Mean;
}
