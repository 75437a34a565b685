using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Desk;

/// <summary>Reads what a person gave of how great a defect is.</summary>
internal static class DefectGradeReading
{
    private const string Alike = "alike";

    /// <summary>The filter, in steps of 0.3 log units.</summary>
    /// <exception cref="EntryProblemException">There is no such filter.</exception>
    public static int Steps(decimal logUnits) =>
        logUnits % 0.3m == 0 && logUnits / 0.3m is >= 1 and <= DensityBracket.StrongestStepAllowed
            ? (int)(logUnits / 0.3m)
            : throw new EntryProblemException(ClinicText.Desk.Get("Filter.NoFilter", logUnits));

    /// <summary>What was seen through it.</summary>
    /// <param name="entry">What was given.</param>
    /// <param name="before">Before which eye the filter was held.</param>
    /// <exception cref="EntryProblemException">Nothing was said, both eyes were said to be worse, or answers contradict each other.</exception>
    public static BracketAnswer Answer(FilterStepEntry entry, Eye before)
    {
        var seen = entry.Seen.Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        bool Is(string word) => seen.Contains(word, StringComparer.OrdinalIgnoreCase);
        var worse = new PerEye<bool> { Right = Is(ClinicWords.Eyes[Eye.Right]), Left = Is(ClinicWords.Eyes[Eye.Left]) };
        if (SwingClaim.Of(Block.SwingLong, worse, PupilsObserved.Both).Refusal is { } refusal)
        {
            throw new EntryProblemException(refusal);
        }

        return (seen.Count, Is(Alike), Is(ClinicWords.CouldNotSee), worse[before], worse[before.Fellow()]) switch
        {
            (1, true, _, _, _) => BracketAnswer.Alike,
            (1, _, true, _, _) => BracketAnswer.CouldNotSee,
            (1, _, _, true, _) => BracketAnswer.Reversed,
            (1, _, _, _, true) => BracketAnswer.StillWorse,
            _ => throw new EntryProblemException(ClinicText.Desk.Get("Filter.OneAnswer")),
        };
    }

    /// <summary>The grade.</summary>
    /// <exception cref="EntryProblemException">The scale has no such grade.</exception>
    public static BellGrade Grade(string? text) =>
        Enum.TryParse<BellGrade>(text, ignoreCase: true, out var grade)
        && Enum.GetName(grade) == text?.ToUpperInvariant()
            ? grade
            : throw new EntryProblemException(ClinicText.Desk.Get("Bell.NoGrade", text));
}
