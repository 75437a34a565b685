using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Exams.Notation;

/// <summary>The letters with the reason beside each that is not claimed, and the limit that E was held to.</summary>
internal static class LetterText
{
    public static string Of(Exam exam, Perrla letters)
    {
        var chart = exam.Profile.Chart;
        var limit = $"{Words.Tenths(chart.EqualWithin.Millimetres)} mm";
        List<string> reasons = [];
        if (letters.Pupils != LetterClaim.Claimed)
            reasons.Add("P: not both pupils measured");
        reasons.Add(
            letters.Equal switch
            {
                LetterClaim.Claimed => $"E within {limit}",
                LetterClaim.NotMet => $"E: sizes differ by more than {limit}",
                LetterClaim.CannotTell => $"E: cannot tell at this uncertainty, limit {limit}",
                var other => $"E: {Why(other)}",
            }
        );
        Add(reasons, "R", letters.Round, "not round");
        Add(reasons, "RL", letters.ReactiveToLight, $"a direct response below {Words.Of(chart.MinimumDirectGrade)}");
        Add(reasons, "A", letters.Accommodation, $"a near response below {Words.Of(chart.MinimumNearGrade)}");
        var text = letters.Letters.Length == 0 ? "PERRLA: no letter claimed" : letters.Letters;
        return $"{text} ({string.Join("; ", reasons)})";
    }

    private static void Add(List<string> reasons, string letter, LetterClaim claim, string notMet)
    {
        if (claim != LetterClaim.Claimed)
            reasons.Add($"{letter}: {(claim == LetterClaim.NotMet ? notMet : Why(claim))}");
    }

    private static string Why(LetterClaim claim) =>
        claim switch
        {
            LetterClaim.NotExamined => Words.NotExamined,
            LetterClaim.CouldNotSee => Words.CouldNotSee,
            LetterClaim.Unreliable => "unreliable here",
            LetterClaim.Contradicted => "judged otherwise by another examiner",
            _ => "cannot tell",
        };
}
