using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Entries;

/// <summary>The list of one day's patients: the latest entry of a day holds.</summary>
public sealed record DayListEntered : PersonEntry
{
    /// <summary>The day, by the clinic's own calendar.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>The patients in the list's order.</summary>
    public required ValueList<DayListItem> Items { get; init; }

    /// <summary>The name of the file that it came from, without a path; empty if it came from none.</summary>
    public required string SourceName { get; init; }
}

/// <summary>One patient on a day's list.</summary>
public sealed record DayListItem
{
    /// <summary>The number of minutes of a day.</summary>
    public const int MinutesOfADay = 24 * 60;

    private readonly int? minuteOfDay;

    /// <summary>The patient.</summary>
    public required PatientId Patient { get; init; }

    /// <summary>When they are expected, in minutes since midnight by the clinic's clock, 0 to 1439; null if it was not said.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is outside that range.</exception>
    public required int? MinuteOfDay
    {
        get => minuteOfDay;
        init =>
            minuteOfDay = value is null or (>= 0 and < MinutesOfADay)
                ? value
                : throw new ArgumentOutOfRangeException(
                    nameof(MinuteOfDay),
                    value,
                    "A time of day is 0 to 1439 minutes after midnight."
                );
    }
}
