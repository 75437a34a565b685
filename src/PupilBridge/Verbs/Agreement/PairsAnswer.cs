using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Statistics.Agreement;

namespace PupilBridge.Verbs.Agreement;

/// <summary>Prints what two columns of readings say.</summary>
internal static class PairsAnswer
{
    /// <summary>Below this many subjects the intervals are so wide that a person should be told.</summary>
    private const int Few = 10;

    /// <summary>Prints bias and limits of agreement.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="asJson">Whether a program reads them.</param>
    public static void PrintLimits(Call call, LimitsOfAgreement limits, bool asJson)
    {
        if (asJson)
        {
            call.PrintJson(
                new LimitsJson(
                    limits.Count,
                    limits.Bias,
                    limits.StandardDeviation,
                    limits.Factor,
                    limits.Low,
                    limits.High,
                    JsonNumbers.Ends(limits.BiasInterval),
                    JsonNumbers.Ends(limits.LowInterval),
                    JsonNumbers.Ends(limits.HighInterval)
                )
            );
        }
        else
        {
            var table = new TextTable("", "value", "95 % confidence interval");
            table.Add("subjects", Number(limits.Count), "");
            table.Add("bias, a minus b", Number(limits.Bias), Ends(limits.BiasInterval));
            table.Add("s of the differences", Number(limits.StandardDeviation), "");
            table.Add("lower limit of agreement", Number(limits.Low), Ends(limits.LowInterval));
            table.Add("upper limit of agreement", Number(limits.High), Ends(limits.HighInterval));
            table.Print(call.Terminal);
            call.Print($"Limits are bias ± {Number(limits.Factor)} s (Bland & Altman, Lancet 1986;i:307-310).");
        }

        RemarkFew(call, limits.Count);
    }

    /// <summary>Prints repeatability.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="repeats">The repeatability.</param>
    /// <param name="asJson">Whether a program reads it.</param>
    public static void PrintRepeats(Call call, Repeatability repeats, bool asJson)
    {
        if (asJson)
        {
            call.PrintJson(
                new RepeatsJson(
                    repeats.Count,
                    repeats.WithinSubjectDeviation,
                    JsonNumbers.Ends(repeats.WithinSubjectInterval),
                    repeats.Factor,
                    repeats.Coefficient,
                    repeats.MeanDifference
                )
            );
        }
        else
        {
            var table = new TextTable("", "value", "95 % confidence interval");
            table.Add("subjects", Number(repeats.Count), "");
            table.Add("s within subjects", Number(repeats.WithinSubjectDeviation), Ends(repeats.WithinSubjectInterval));
            table.Add("repeatability", Number(repeats.Coefficient), "");
            table.Add("mean difference", Number(repeats.MeanDifference), "");
            table.Print(call.Terminal);
            call.Print(
                $"Repeatability is {Number(repeats.Factor)}·√2 s within subjects (Bland & Altman, Lancet 1986;i:307-310)."
            );
        }

        if (repeats.HasShifted)
        {
            call.Remark(
                "The second readings differ from the first as a whole, beyond chance: something changed between them, "
                    + "and this is not repeatability alone."
            );
        }

        RemarkFew(call, repeats.Count);
    }

    /// <summary>A number at full precision.</summary>
    /// <param name="value">The number.</param>
    /// <returns>With a decimal point.</returns>
    public static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>An interval for a person.</summary>
    /// <param name="interval">The interval.</param>
    /// <returns>Both ends.</returns>
    public static string Ends(Interval interval) =>
        string.Create(CultureInfo.InvariantCulture, $"{interval.Low:0.######} to {interval.High:0.######}");

    /// <summary>Tells that few subjects say little.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="count">How many there are.</param>
    public static void RemarkFew(Call call, int count)
    {
        if (count < Few)
        {
            call.Remark($"{count} subjects are few: look at the confidence intervals before the values.");
        }
    }
}
