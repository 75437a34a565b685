namespace PupilBridge.Clinic.Text;

/// <summary>The resource files of this project.</summary>
internal static class ClinicText
{
    /// <summary>The house as a whole.</summary>
    public static HouseText House { get; } = File(nameof(House));

    /// <summary>Signing in, people and their roles.</summary>
    public static HouseText People { get; } = File(nameof(People));

    /// <summary>What a lane says.</summary>
    public static HouseText Lane { get; } = File(nameof(Lane));

    /// <summary>Exams as they are shown.</summary>
    public static HouseText Showing { get; } = File(nameof(Showing));

    /// <summary>Exams as they are reviewed, and the journal's entries.</summary>
    public static HouseText Records { get; } = File(nameof(Records));

    /// <summary>Day's lists.</summary>
    public static HouseText DayLists { get; } = File(nameof(DayLists));

    /// <summary>What is on its way to other systems.</summary>
    public static HouseText Outbox { get; } = File(nameof(Outbox));

    /// <summary>The audit stream.</summary>
    public static HouseText Audit { get; } = File(nameof(Audit));

    /// <summary>The service bench.</summary>
    public static HouseText Bench { get; } = File(nameof(Bench));

    /// <summary>What is in the way of an entry.</summary>
    public static HouseText Desk { get; } = File(nameof(Desk));

    private static HouseText File(string name) => new(typeof(ClinicText), $"PupilBridge.Clinic.Text.{name}");
}
