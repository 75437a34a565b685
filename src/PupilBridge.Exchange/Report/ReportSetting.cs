namespace PupilBridge.Exchange.Report;

/// <summary>What of the house a report needs to know.</summary>
public sealed record ReportSetting
{
    /// <summary>The clinic's name; empty if none is set.</summary>
    public string ClinicName { get; init; } = "";

    /// <summary>The clinic's time zone.</summary>
    public TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Utc;

    /// <summary>Whether patients' names may stand on paper.</summary>
    public bool WantsNames { get; init; } = true;
}
