using PupilBridge.Clinic.House;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Instrument;
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
    public static IReadOnlyList<string> Of(IClinicHouse house, Exam exam)
    {
        // Most exams have no reason, whatever came before; those need no look at earlier ones.
        var alone = BeforeDrops.Of(exam, []);
        return alone.IsEmpty ? [] : [.. BeforeDrops.Of(exam, EarlierVisits.Of(house, exam)).Select(Of)];
    }

    private static string Of(BeforeDropsReason reason) =>
        reason.Kind switch
        {
            BeforeDropsKind.PoorDirect => $"poor direct response, {Eye(reason)}: {ChartWords.Of(reason.Grade)}",
            BeforeDropsKind.SwingAsymmetry => reason.Eye is null
                ? "swinging: the outcomes disagree"
                : $"swinging asymmetry, {Eye(reason)}",
            BeforeDropsKind.AnisocoriaNew => $"{Unequal(reason)}, not so at earlier visits",
            BeforeDropsKind.AnisocoriaNotKnownBefore => $"{Unequal(reason)}, not known from an earlier visit",
            BeforeDropsKind.AnisocoriaGrown => $"{Unequal(reason)}, more than at earlier visits",
            _ => $"incomplete: {(reason.Step is { } step ? ChartWords.Of(step) : "a step")}{Of(reason.Eye)}",
        };

    private static string Unequal(BeforeDropsReason reason)
    {
        var light = reason.Light is { } said ? ChartWords.Of(said) : "unknown";
        var difference = ChartWords.Tenths(reason.DifferenceMillimetres ?? 0);
        var limit = ChartWords.Tenths(reason.LimitMillimetres ?? 0);
        var sure = reason.IsSure ? "" : ", cannot surely be told";
        return $"sizes differ by {difference} mm in {light} light, {Eye(reason)} larger (limit in use {limit} mm{sure})";
    }

    private static string Eye(BeforeDropsReason reason) => reason.Eye is { } eye ? ChartWords.Of(eye) : "both eyes";

    private static string Of(Eye? eye) => eye is { } one ? $", {ChartWords.Of(one)}" : "";
}
