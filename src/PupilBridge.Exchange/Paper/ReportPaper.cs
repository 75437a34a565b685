namespace PupilBridge.Exchange.Paper;

/// <summary>The sheets that a report is made for (ISO 216).</summary>
public enum ReportPaper
{
    /// <summary>210 mm by 297 mm.</summary>
    A4 = 1,

    /// <summary>148 mm by 210 mm.</summary>
    A5 = 2,
}
