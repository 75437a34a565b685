namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>How often two examiners gave which pair of grades.</summary>
public sealed class GradeTable
{
    private readonly double[,] share;

    private GradeTable(IReadOnlyList<double> grades, double[,] share, int count)
    {
        Grades = grades;
        this.share = share;
        Count = count;
    }

    /// <summary>The grades that occur, ascending.</summary>
    public IReadOnlyList<double> Grades { get; }

    /// <summary>How many subjects.</summary>
    public int Count { get; }

    /// <summary>The share of subjects with one grade by the first and another by the second examiner.</summary>
    /// <param name="first">Which grade the first gave, from 0.</param>
    /// <param name="second">Which grade the second gave, from 0.</param>
    /// <returns>Between 0 and 1.</returns>
    public double Share(int first, int second) => share[first, second];

    /// <summary>The share of a grade among all that the first examiner gave.</summary>
    /// <param name="grade">Which grade, from 0.</param>
    /// <returns>Between 0 and 1.</returns>
    public double ShareOfFirst(int grade) => Enumerable.Range(0, Grades.Count).Sum(second => share[grade, second]);

    /// <summary>The share of a grade among all that the second examiner gave.</summary>
    /// <param name="grade">Which grade, from 0.</param>
    /// <returns>Between 0 and 1.</returns>
    public double ShareOfSecond(int grade) => Enumerable.Range(0, Grades.Count).Sum(first => share[first, grade]);

    /// <summary>Counts pairs of grades.</summary>
    /// <param name="pairs">The two examiners' grades of each subject.</param>
    /// <returns>The table.</returns>
    public static GradeTable Of(PairedReadings pairs)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        double[] grades = [.. pairs.One.Concat(pairs.Other).Distinct().Order()];
        var counts = new double[grades.Length, grades.Length];
        foreach (var (one, other) in pairs.One.Zip(pairs.Other))
            counts[Array.IndexOf(grades, one), Array.IndexOf(grades, other)]++;
        return Counted(grades, counts);
    }

    /// <summary>Takes a table that was counted, or printed, by somebody else.</summary>
    /// <param name="grades">The grades, ascending.</param>
    /// <param name="counts">Counts or shares: rows for the first examiner, columns for the second.</param>
    /// <param name="subjects">How many subjects stand behind shares; by default the sum of the counts.</param>
    /// <returns>The table.</returns>
    public static GradeTable Counted(IReadOnlyList<double> grades, double[,] counts, int? subjects = null)
    {
        ArgumentNullException.ThrowIfNull(grades);
        ArgumentNullException.ThrowIfNull(counts);
        if (counts.GetLength(0) != grades.Count || counts.GetLength(1) != grades.Count)
            throw new ArgumentException("The table has other rows or columns than there are grades.", nameof(counts));
        var total = counts.Cast<double>().Sum();
        var shares = new double[grades.Count, grades.Count];
        for (var i = 0; i < grades.Count; i++)
        {
            for (var j = 0; j < grades.Count; j++)
                shares[i, j] = counts[i, j] / total;
        }

        return new(grades, shares, subjects ?? (int)Math.Round(total));
    }
}
