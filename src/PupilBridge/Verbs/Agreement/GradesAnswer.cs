using PupilBridge.CommandLine;
using PupilBridge.Exams.Statistics.Agreement;

namespace PupilBridge.Verbs.Agreement;

/// <summary>Prints how far two examiners' grades agree.</summary>
internal static class GradesAnswer
{
    /// <summary>More different values than any scale of grades has.</summary>
    private const int MostGrades = 12;

    /// <summary>Prints kappa, plain and weighted.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="pairs">The grades.</param>
    /// <param name="weights"><c>linear</c> or <c>quadratic</c>.</param>
    /// <param name="asJson">Whether a program reads it.</param>
    public static void Print(Call call, PairedReadings pairs, string weights, bool asJson)
    {
        var counted = GradeTable.Of(pairs);
        var plain = Kappa.Plain(counted);
        var weighted = Kappa.Weighted(counted, weights == "linear" ? KappaWeights.Linear : KappaWeights.Quadratic);
        if (asJson)
        {
            call.PrintJson(
                new GradesJson(
                    counted.Count,
                    plain.Value,
                    JsonNumbers.Ends(plain.Interval),
                    weighted.Value,
                    JsonNumbers.Ends(weighted.Interval),
                    weights,
                    plain.Observed,
                    plain.ByChance
                )
            );
        }
        else
        {
            var table = new TextTable("", "value", "95 % confidence interval");
            table.Add("subjects", PairsAnswer.Number(counted.Count), "");
            table.Add("same grade", PairsAnswer.Number(plain.Observed), "");
            table.Add("same grade by chance", PairsAnswer.Number(plain.ByChance), "");
            table.Add("kappa", PairsAnswer.Number(plain.Value), PairsAnswer.Ends(plain.Interval));
            table.Add(
                $"kappa, {weights} weights",
                PairsAnswer.Number(weighted.Value),
                PairsAnswer.Ends(weighted.Interval)
            );
            table.Print(call.Terminal);
        }

        if (counted.Grades.Count > MostGrades)
        {
            call.Remark(
                $"There are {counted.Grades.Count} different values: are these measurements and no grades? "
                    + "Without --grades their limits of agreement are computed."
            );
        }

        PairsAnswer.RemarkFew(call, counted.Count);
    }
}
