namespace PupilBridge.Clinic.People;

/// <summary>
/// When wrong passwords lock a name, and for how long: each lock lasts twice as long as the one before it, so that guessing
/// gets nowhere while somebody who mistyped waits for minutes.
/// </summary>
public sealed record LockoutRule
{
    /// <summary>How many wrong passwords lock a name; 1 to 100.</summary>
    public int WrongBeforeLock { get; init; } = 5;

    /// <summary>How long the first lock lasts.</summary>
    public TimeSpan FirstLock { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>How long a lock lasts at most.</summary>
    public TimeSpan LongestLock { get; init; } = TimeSpan.FromHours(1);

    /// <summary>Counts a wrong password.</summary>
    /// <param name="before">What was counted so far.</param>
    /// <param name="now">The time.</param>
    internal Attempts AfterWrong(Attempts before, DateTimeOffset now) =>
        before.Wrong + 1 < WrongBeforeLock
            ? before with
            {
                Wrong = before.Wrong + 1,
            }
            : new Attempts(0, before.Locks + 1, now + LockNumber(before.Locks + 1));

    /// <summary>How long a lock lasts.</summary>
    /// <param name="number">Which lock in a row, from 1.</param>
    public TimeSpan LockNumber(int number)
    {
        var length = FirstLock;
        for (var n = 1; n < number && length < LongestLock; n++)
        {
            length *= 2;
        }

        return length < LongestLock ? length : LongestLock;
    }
}
