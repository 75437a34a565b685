namespace PupilBridge.ExamLog;

/// <summary>One line of a look-up list that grew out of the journal, such as the initials of the examiners seen so far.</summary>
public sealed record StoredLookUp
{
    /// <summary>Which list, as a short word.</summary>
    public required string List { get; init; }

    /// <summary>The line's key within its list.</summary>
    public required string Key { get; init; }

    /// <summary>What the key stands for; may be empty.</summary>
    public string Text { get; init; } = "";
}
