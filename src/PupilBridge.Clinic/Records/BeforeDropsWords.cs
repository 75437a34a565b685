using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using ChartWords = PupilBridge.Exams.Notation.Words;

namespace PupilBridge.Clinic.Records;

/// <summary>
/// Why a clinician should see a patient before drops, in words: what was seen or is missing, never what it might mean. No reason is no
/// reassurance.
/// </summary>
internal static class BeforeDropsWords
{
    /// <summary>The reasons of an exam, with the patient's earlier exams looked up; empty for none.</summary>
    /// <exception cref="ExamLog.ExamLogBrokenException">The earlier exams cannot be read now.</exception>
    public static IReadOnlyList<string> Of(IClinicHouse house, Exam exam) =>
        Of(exam, () => EarlierVisits.Of(house, exam));

    /// <summary>The reasons of an exam; empty for none.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="earlier">Finds the patient's earlier visits; only asked where they matter.</param>
    public static IReadOnlyList<string> Of(Exam exam, Func<IReadOnlyList<EarlierVisit>> earlier)
    {
        // Most exams have no reason, whatever came before; those need no look at earlier ones.
        var alone = BeforeDrops.Of(exam, []);
        return alone.IsEmpty ? [] : [.. BeforeDrops.Of(exam, earlier()).Select(Of)];
    }

    private static string Of(BeforeDropsReason reason) =>
        reason.Kind switch
        {
            BeforeDropsKind.PoorDirect => ClinicText.Records.Get(
                "Drops.PoorDirect",
                Eye(reason),
                ChartWords.Of(reason.Grade)
            ),
            BeforeDropsKind.SwingAsymmetry when reason.Eye is null => ClinicText.Records["Drops.SwingDisagree"],
            BeforeDropsKind.SwingAsymmetry when !reason.IsSure => ClinicText.Records.Get(
                "Drops.SwingUnclaimed",
                Eye(reason)
            ),
            BeforeDropsKind.SwingAsymmetry => ClinicText.Records.Get("Drops.Swing", Eye(reason)),
            BeforeDropsKind.AnisocoriaNew => ClinicText.Records.Get("Drops.AnisocoriaNew", Unequal(reason)),
            BeforeDropsKind.AnisocoriaNotKnownBefore => ClinicText.Records.Get(
                "Drops.AnisocoriaNotKnown",
                Unequal(reason)
            ),
            BeforeDropsKind.AnisocoriaGrown => ClinicText.Records.Get("Drops.AnisocoriaGrown", Unequal(reason)),
            _ when reason.Eye is null => ClinicText.Records.Get("Drops.Incomplete", Step(reason)),
            _ => ClinicText.Records.Get("Drops.IncompleteOfEye", Step(reason), Eye(reason)),
        };

    private static string Unequal(BeforeDropsReason reason)
    {
        var difference = ChartWords.Tenths(reason.DifferenceMillimetres ?? 0);
        var light = reason.Light is { } said ? ClinicText.Records.Of("InLight", said) : "";
        var limit = ChartWords.Tenths(reason.LimitMillimetres ?? 0);
        return reason.IsSure
            ? ClinicText.Records.Get("Drops.Unequal", difference, light, Eye(reason), limit)
            : ClinicText.Records.Get("Drops.UnequalUnsure", difference, light, Eye(reason), limit);
    }

    private static string Eye(BeforeDropsReason reason) => reason.Eye is { } eye ? HouseWords.Of(eye) : "";

    private static string Step(BeforeDropsReason reason) => reason.Step is { } step ? HouseWords.Within(step) : "";
}
