using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Diameters;

namespace PupilBridge.Exams.Notation;

/// <summary>
/// What is known of the two lamps, in words, to stand beside every outcome of the swinging test: unequal lamps imitate a relative afferent
/// defect, or hide one.
/// </summary>
public static class LampText
{
    /// <summary>The words where nobody ever compared the lamps.</summary>
    public const string NeverChecked = "balance not checked";

    /// <summary>The words.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The balance with its uncertainty and its age at the exam, or that there is none.</returns>
    public static string Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        if (exam.LampBalance is not { Balance: { } balance } record)
            return NeverChecked;
        var days = record.AgeDays(exam.Opening.When.At);
        var verdict = balance.Against(LampBalance.UnequalLogUnits) switch
        {
            LimitVerdict.Above => "UNEQUAL, which imitates a defect; ",
            LimitVerdict.CannotTell => "cannot be told whether alike; ",
            _ => "",
        };
        return verdict
            + string.Create(
                CultureInfo.InvariantCulture,
                $"right against left {balance.LogUnits:+0.00;-0.00;0.00} ± {balance.ExpandedFor95LogUnits:0.00} log units, "
            )
            + (days == 1 ? "checked 1 day before" : $"checked {days} days before");
    }
}
