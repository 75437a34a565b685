namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>
/// How far two examiners' grades agree beyond chance: Cohen J, Educ Psychol Meas 1960;20:37-46; with disagreements that
/// count by their size, Psychol Bull 1968;70:213-220.
/// </summary>
/// <param name="Value">1 for full agreement, 0 for no more than chance, negative for less.</param>
/// <param name="StandardError">
/// Its large-sample standard error (Fleiss JL, Cohen J, Everitt BS, Psychol Bull 1969;72:323-327, from memory).
/// </param>
/// <param name="Observed">The agreement that was observed, 0 to 1.</param>
/// <param name="ByChance">The agreement that chance alone would give, 0 to 1.</param>
public sealed record Kappa(double Value, double StandardError, double Observed, double ByChance)
{
    /// <summary>The 95 % confidence interval, normal approximation; rough for few subjects.</summary>
    public Interval Interval => Interval.About(Value, Quantiles.StudentT(double.PositiveInfinity) * StandardError);

    /// <summary>Kappa where a disagreement is a disagreement, however large.</summary>
    /// <param name="table">The grades.</param>
    /// <returns>Kappa.</returns>
    /// <exception cref="StatisticsRefusedException">Both examiners gave one and the same grade throughout.</exception>
    public static Kappa Plain(GradeTable table) => Of(table, (i, j) => i == j ? 1 : 0);

    /// <summary>
    /// Kappa where a disagreement counts by how far the grades are apart in value. A grade that nobody gave keeps its place:
    /// from 2 to 4 is twice as far as from 2 to 3 even where no 3 occurs.
    /// </summary>
    /// <param name="table">The grades.</param>
    /// <param name="weights">How the distance counts.</param>
    /// <returns>Weighted kappa.</returns>
    /// <exception cref="StatisticsRefusedException">Both examiners gave one and the same grade throughout.</exception>
    public static Kappa Weighted(GradeTable table, KappaWeights weights)
    {
        ArgumentNullException.ThrowIfNull(table);
        var range = table.Grades[^1] - table.Grades[0];
        return Of(
            table,
            (i, j) =>
            {
                var apart = Math.Abs(table.Grades[i] - table.Grades[j]) / range;
                return 1 - (weights == KappaWeights.Linear ? apart : apart * apart);
            }
        );
    }

    /// <summary>Kappa with any weights of agreement.</summary>
    /// <param name="table">The grades.</param>
    /// <param name="agreement">1 for grades that agree fully, 0 for those that do not at all; by their places, from 0.</param>
    /// <returns>Weighted kappa.</returns>
    /// <exception cref="StatisticsRefusedException">Both examiners gave one and the same grade throughout.</exception>
    public static Kappa Of(GradeTable table, Func<int, int, double> agreement)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(agreement);
        var grades = Enumerable.Range(0, table.Grades.Count).ToArray();
        if (grades.Length < 2)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                "Both examiners gave one and the same grade throughout; agreement beyond chance has no meaning then."
            );
        }

        double[] first = [.. grades.Select(table.ShareOfFirst)];
        double[] second = [.. grades.Select(table.ShareOfSecond)];
        var cells = grades.SelectMany(i => grades.Select(j => (I: i, J: j, Weight: agreement(i, j)))).ToArray();
        var observed = cells.Sum(cell => cell.Weight * table.Share(cell.I, cell.J));
        var chance = cells.Sum(cell => cell.Weight * first[cell.I] * second[cell.J]);
        var value = (observed - chance) / (1 - chance);

        double[] meanOfRow = [.. grades.Select(i => grades.Sum(j => second[j] * agreement(i, j)))];
        double[] meanOfColumn = [.. grades.Select(j => grades.Sum(i => first[i] * agreement(i, j)))];
        var spread = cells.Sum(cell =>
        {
            var term = cell.Weight - ((meanOfRow[cell.I] + meanOfColumn[cell.J]) * (1 - value));
            return table.Share(cell.I, cell.J) * term * term;
        });
        var level = value - (chance * (1 - value));
        var variance = (spread - (level * level)) / (table.Count * (1 - chance) * (1 - chance));
        return new(value, Math.Sqrt(Math.Max(variance, 0)), observed, chance);
    }
}
