namespace PupilBridge.Clinic.Entries;

/// <summary>Enters what a person judged.</summary>
public sealed record JudgementEntry : ExamDeskEntry
{
    /// <summary>
    /// One judgement in the words of <see cref="Judging.JudgementSyntax"/>, of one eye. A line that judges both eyes alike is two
    /// entries: see <see cref="DeskEntries.Judgements"/>.
    /// </summary>
    public required string Judgement { get; init; }

    /// <summary>The step that the person was asked for; null if none was shown.</summary>
    public string? StepSeen { get; init; }

    /// <summary>The journal sequence that names the stimulus the person saw; null for the last one that fits.</summary>
    public long? StimulusSeen { get; init; }
}

/// <summary>Adds a free remark.</summary>
public sealed record NoteEntry : ExamDeskEntry
{
    /// <summary>The remark.</summary>
    public required string Text { get; init; }
}

/// <summary>Takes back an earlier entry of a person on this exam.</summary>
public sealed record WithdrawEntry : ExamDeskEntry
{
    /// <summary>The id of the entry to take back.</summary>
    public required string Withdrawn { get; init; }

    /// <summary>Why, if there is something to say.</summary>
    public string? Reason { get; init; }
}

/// <summary>Accepts that steps stay not examined.</summary>
public sealed record NotExaminedEntry : ExamDeskEntry
{
    /// <summary>The steps.</summary>
    public required IReadOnlyList<string> Steps { get; init; }
}

/// <summary>Says that the examiner is done and the exam awaits review.</summary>
public sealed record MakeReadyEntry : ExamDeskEntry;

/// <summary>Says that the exam shall not be used.</summary>
public sealed record SetAsideEntry : ExamDeskEntry
{
    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}
