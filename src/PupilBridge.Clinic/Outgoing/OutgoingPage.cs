namespace PupilBridge.Clinic.Outgoing;

/// <summary>Which exams leave the house.</summary>
public sealed record OutgoingSearch
{
    /// <summary>The most exams of one page.</summary>
    public const int MaxLimit = 100;

    /// <summary>Only exams opened at this time or later; null for no limit.</summary>
    public DateTimeOffset? OpenedFrom { get; init; }

    /// <summary>Only exams opened before this time; null for no limit.</summary>
    public DateTimeOffset? OpenedBefore { get; init; }

    /// <summary>Where the page before ended, as <see cref="OutgoingPage.Next"/> said; null for the first page.</summary>
    public string? After { get; init; }

    /// <summary>The most exams on the page, 1 to <see cref="MaxLimit"/>.</summary>
    public int Limit { get; init; } = 50;
}

/// <summary>A page of exams as they may leave the house.</summary>
/// <param name="Records">The exams; may be fewer than asked for, even none, though more follow.</param>
/// <param name="Withheld">How many exams of the page have no text any more, because it was erased.</param>
/// <param name="Next">What to ask with for the next page; null at the end.</param>
public sealed record OutgoingPage(IReadOnlyList<OutgoingRecord> Records, int Withheld, string? Next);
