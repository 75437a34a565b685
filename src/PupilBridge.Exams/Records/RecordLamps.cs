using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;

namespace PupilBridge.Exams.Records;

/// <summary>The last comparison of the two lamps before the exam, in thousandths of a log unit.</summary>
/// <param name="At">When.</param>
/// <param name="AgeDays">How many days before the exam.</param>
/// <param name="MilliLogUnits">log10(right / left), above 0 where the right lamp gave more.</param>
/// <param name="ExpandedMilliLogUnits">Its expanded uncertainty for 95 %.</param>
/// <param name="Against">
/// How it stands to the limit beyond which lamps count as unequal (<see cref="LampBalance.UnequalLogUnits"/>): <c>within</c>, <c>above</c>
/// or <c>cannot-tell</c>.
/// </param>
/// <param name="Sequence">The entry that says so.</param>
public sealed record RecordLamps(
    string At,
    int AgeDays,
    int MilliLogUnits,
    int ExpandedMilliLogUnits,
    string Against,
    long Sequence
)
{
    /// <summary>What an exam knows of its instrument's lamps.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Null if they were never compared.</returns>
    public static RecordLamps? Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.LampBalance is { Balance: { } balance } record
            ? new(
                RecordWords.Of(record.At),
                record.AgeDays(exam.Opening.When.At),
                Thousandths(balance.LogUnits),
                Thousandths(balance.ExpandedFor95LogUnits),
                RecordWords.Of(balance.Against(LampBalance.UnequalLogUnits)),
                record.Sequence.Value
            )
            : null;
    }

    private static int Thousandths(double logUnits) =>
        (int)Math.Clamp(Math.Round(logUnits * 1000, MidpointRounding.AwayFromZero), int.MinValue, int.MaxValue);
}
