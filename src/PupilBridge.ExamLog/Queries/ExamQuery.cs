using PupilBridge.Exams.Values;

namespace PupilBridge.ExamLog;

/// <summary>Which exams a list shows; the latest opened stands first.</summary>
public sealed record ExamQuery
{
    /// <summary>The most exams that one page may hold.</summary>
    public const int MaxLimit = 500;

    /// <summary>Only exams of one of these patients' numbers, which stand for one person; empty for all.</summary>
    public ValueList<string> PatientIds { get; init; }

    /// <summary>Only exams with one of these statuses; empty for all.</summary>
    public ValueList<string> Statuses { get; init; }

    /// <summary>Only exams with this status: short for one in <see cref="Statuses"/>; null for all.</summary>
    public string? Status
    {
        get => Statuses.Count == 1 ? Statuses[0] : null;
        init => Statuses = value is null ? [] : [value];
    }

    /// <summary>Only exams of this examiner, upper and lower case alike; null for all.</summary>
    public string? Examiner { get; init; }

    /// <summary>Only exams with this finding; null for all.</summary>
    public string? Finding { get; init; }

    /// <summary>Only exams opened at this time or later; null for no limit.</summary>
    public DateTimeOffset? OpenedFrom { get; init; }

    /// <summary>Only exams opened before this time; null for no limit.</summary>
    public DateTimeOffset? OpenedBefore { get; init; }

    /// <summary>Where the page before ended, as it said in <see cref="Page{T}.Next"/>; null for the first page.</summary>
    public string? After { get; init; }

    /// <summary>The most exams on the page, 1 to <see cref="MaxLimit"/>.</summary>
    public int Limit { get; init; } = 50;
}
