namespace PupilBridge.Clinic.DayLists;

/// <summary>Whether a folder is watched for day's lists.</summary>
public sealed record DayListWatchOptions
{
    /// <summary>The folder; files lie in it and not below it.</summary>
    public required string Folder { get; init; }

    /// <summary>How often it is looked at.</summary>
    /// <value>The default is 5 s.</value>
    public TimeSpan Every { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>Who stands in the journal as the one who entered what a file says.</summary>
    /// <value>The default is <c>day-list-folder</c>.</value>
    public string Who { get; init; } = "day-list-folder";
}
