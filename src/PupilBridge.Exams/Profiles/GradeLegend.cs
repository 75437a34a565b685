using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Profiles;

/// <summary>
/// What each grade of a response means in this clinic, in its own words. No metric standard for the grades exists, so that a
/// grade can only be read together with the legend under which it was given.
/// </summary>
public sealed record GradeLegend
{
    /// <summary>How many grades have a text: 0, 1, 2, 3 and 4. A half step lies between two of them.</summary>
    public const int Count = (Grade.MaxHalfSteps / 2) + 1;

    /// <summary>The most characters that a grade's text may have.</summary>
    public const int MaxLength = 200;

    private readonly ValueList<string> grades;

    /// <summary>The legend's version, 1 or more; every change of a text makes a new one.</summary>
    public required int Version { get; init; }

    /// <summary>The texts for 0, 1, 2, 3 and 4, in that order.</summary>
    /// <exception cref="ArgumentException">There are not exactly five.</exception>
    public required ValueList<string> Grades
    {
        get => grades;
        init =>
            grades =
                value.Count == Count
                    ? value
                    : throw new ArgumentException(
                        $"A legend has {Count} texts, for the grades 0 to 4; this one has {value.Count}.",
                        nameof(Grades)
                    );
    }

    /// <summary>
    /// The first legend that shipped with the program; the words are ours. It also stands for profiles from before there was
    /// a legend, so that its words never change: other words are another legend with another version.
    /// </summary>
    public static GradeLegend Default { get; } =
        new()
        {
            Version = 1,
            Grades =
            [
                "no constriction seen",
                "just visible, or small and slow",
                "clearly visible, of moderate size or speed",
                "good size, at a good pace",
                "large and brisk",
            ],
        };

    /// <summary>What a grade means.</summary>
    /// <param name="grade">The grade.</param>
    /// <returns>
    /// The text of a whole grade; for a half step, the texts below and above it; null where it could not be seen.
    /// </returns>
    public string? Of(Grade grade) =>
        grade.HalfSteps switch
        {
            null => null,
            { } half when half % 2 == 0 => Grades[half / 2],
            { } half => $"between \"{Grades[half / 2]}\" and \"{Grades[(half / 2) + 1]}\"",
        };
}
