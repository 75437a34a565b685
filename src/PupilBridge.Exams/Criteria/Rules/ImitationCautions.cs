using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>What can imitate a relative afferent defect, or hide one.</summary>
internal static class ImitationCautions
{
    public static string[] Of(CriteriaInput input) => [.. Anisocoria(input), .. Balance(input)];

    private static IEnumerable<string> Anisocoria(CriteriaInput input)
    {
        var limit = input.LimitsInUse.ClinicalAnisocoria.Millimetres;
        foreach (var light in new[] { RoomLight.Bright, RoomLight.Dim })
        {
            var difference = SizeDifference.Equality(input, light).DifferenceMillimetres;
            if (difference is { } d && Math.Abs(d) >= limit - 1e-6)
            {
                yield return "Marked anisocoria can imitate a defect: the smaller pupil lets less light in.";
                yield break;
            }
        }
    }

    private static IEnumerable<string> Balance(CriteriaInput input)
    {
        if (!(input.LampBalanceAgeDays <= input.LimitsInUse.LampBalanceDays))
            yield return "The lamps' balance was not checked lately: unequal lamps can imitate a defect.";
        if (input.Exam.LampBalance?.Balance is { } balance)
        {
            var verdict = balance.Against(LampBalance.UnequalLogUnits);
            if (verdict == LimitVerdict.Above)
                yield return "The lamps were unequal when they were last compared: that can imitate a defect or hide one.";
            else if (verdict == LimitVerdict.CannotTell)
                yield return "The last comparison of the lamps cannot tell whether they are alike: unequal lamps can imitate a defect.";
        }
    }
}
