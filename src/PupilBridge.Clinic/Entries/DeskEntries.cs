using PupilBridge.Clinic.Judging;

namespace PupilBridge.Clinic.Entries;

/// <summary>Makes entries of what was typed.</summary>
public static class DeskEntries
{
    /// <summary>The entries of one typed line of judgement: two where it judges both eyes.</summary>
    /// <param name="text">The line.</param>
    /// <param name="stamp">Who, when and where it was typed.</param>
    /// <param name="exam">The number of the exam that the person saw.</param>
    /// <param name="newId">Draws a fresh id for each entry: 32 hexadecimal digits.</param>
    /// <param name="stepSeen">The step that the person was asked for; null if none was shown.</param>
    /// <exception cref="EntryProblemException">The line cannot be understood.</exception>
    public static IReadOnlyList<JudgementEntry> Judgements(
        string text,
        EntryStamp stamp,
        long exam,
        Func<string> newId,
        string? stepSeen = null
    )
    {
        ArgumentNullException.ThrowIfNull(stamp);
        ArgumentNullException.ThrowIfNull(newId);
        return
        [
            .. JudgementSyntax
                .Read(text)
                .Select(judgement => new JudgementEntry
                {
                    EntryId = newId(),
                    Who = stamp.Who,
                    At = stamp.At,
                    ProgramVersion = stamp.ProgramVersion,
                    Exam = exam,
                    Judgement = JudgementSyntax.Write(judgement),
                    StepSeen = stepSeen,
                }),
        ];
    }
}

/// <summary>Who, when and where something was typed.</summary>
/// <param name="Who">Initials or sign-in name.</param>
/// <param name="At">When.</param>
/// <param name="ProgramVersion">The program's version.</param>
public sealed record EntryStamp(string Who, DateTimeOffset At, string ProgramVersion);
