namespace PupilBridge.Scenarios.Oracle;

/// <summary>What became of the events that an instrument really produced.</summary>
/// <param name="Happened">Events that the instrument produced.</param>
/// <param name="Recorded">Of these, in the journal exactly once and in order.</param>
/// <param name="InGap">Of these, not recorded but told of by an explicit gap.</param>
/// <param name="NeverMet">Of these, in boots that began and ended while the line was down, of which the bridge cannot know.</param>
/// <param name="Pending">Of these, at the very end of a boot that is still on and was never acknowledged.</param>
/// <param name="Problems">Everything that must not be, one sentence each; empty if all is well.</param>
public sealed record AuditResult(
    long Happened,
    long Recorded,
    long InGap,
    long NeverMet,
    long Pending,
    IReadOnlyList<string> Problems
)
{
    /// <summary>Events that are neither recorded nor told of.</summary>
    public long Lost => Happened - Recorded - InGap - NeverMet - Pending;

    /// <summary>Events that stand in the journal more than once.</summary>
    public long Doubled { get; init; }

    /// <summary>Events in the journal that never happened, or otherwise than they stand there.</summary>
    public long False { get; init; }

    /// <summary>Events in gaps that the instrument had not lost: told of, but needlessly given up.</summary>
    public long GivenUp { get; init; }

    /// <summary>The sum of two results.</summary>
    public static AuditResult operator +(AuditResult one, AuditResult other) =>
        new(
            one.Happened + other.Happened,
            one.Recorded + other.Recorded,
            one.InGap + other.InGap,
            one.NeverMet + other.NeverMet,
            one.Pending + other.Pending,
            [.. one.Problems, .. other.Problems]
        )
        {
            Doubled = one.Doubled + other.Doubled,
            False = one.False + other.False,
            GivenUp = one.GivenUp + other.GivenUp,
        };

    /// <summary>Nothing at all.</summary>
    public static AuditResult None { get; } = new(0, 0, 0, 0, 0, []);
}
