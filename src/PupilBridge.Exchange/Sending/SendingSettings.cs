namespace PupilBridge.Exchange.Sending;

/// <summary>Which parts of a patient's identity go with a record, besides the clinic's number for the patient.</summary>
[Flags]
public enum IdentityParts
{
    /// <summary>The number alone.</summary>
    Number = 0,

    /// <summary>The name.</summary>
    Name = 1,

    /// <summary>The date of birth.</summary>
    BirthDate = 2,
}

/// <summary>To whom signed records are sent, and how. Without it nothing is sent.</summary>
public sealed record SendingSettings
{
    /// <summary>What the destination is called, in the journal and on screens.</summary>
    public required string Name { get; init; }

    /// <summary>The base address of the FHIR server: https, or http on this machine alone.</summary>
    public required Uri Address { get; init; }

    /// <summary>A header that goes with every request, such as <c>Authorization</c>; null for none.</summary>
    public SecretHeader? Header { get; init; }

    /// <summary>What of a patient's identity goes besides the number.</summary>
    public IdentityParts Identity { get; init; }

    /// <summary>Only versions signed at this time or later are sent; null for all.</summary>
    public DateTimeOffset? SignedSince { get; init; }

    /// <summary>How many patients' records are on their way at once.</summary>
    public int AtOnce { get; init; } = 4;

    /// <summary>How long one request may take.</summary>
    public TimeSpan Timeout { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long and how often is waited before it is tried again.</summary>
    public RetryTiming Retry { get; init; } = new();

    /// <summary>How often the outbox is looked at while nothing is to be done.</summary>
    public TimeSpan LookEvery { get; init; } = TimeSpan.FromSeconds(1);
}

/// <summary>A header with a secret, which no message repeats.</summary>
/// <param name="Name">The header's name.</param>
/// <param name="Read">Reads the value, each time anew, so that a secret in a file can be replaced.</param>
public sealed record SecretHeader(string Name, Func<string> Read);

/// <summary>How long to wait between tries.</summary>
public sealed record RetryTiming
{
    /// <summary>The wait after the first failure, before chance.</summary>
    public TimeSpan First { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>The longest wait.</summary>
    public TimeSpan Cap { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>How often one sending is tried again before others of its kind take its place.</summary>
    public int TriesInARow { get; init; } = 2;

    /// <summary>
    /// The wait after a failure: <c>min(cap, first · 2^failures)</c>, of which the upper half is left to chance, so that many senders
    /// which lost one server do not come back in step.
    /// </summary>
    /// <param name="failures">How many failures came before this one in a row, from 0.</param>
    /// <param name="chance">A number from 0 to 1.</param>
    public TimeSpan After(int failures, double chance)
    {
        var full = Math.Min(Cap.TotalSeconds, First.TotalSeconds * Math.Pow(2, Math.Clamp(failures, 0, 40)));
        return TimeSpan.FromSeconds(full * (0.5 + (Math.Clamp(chance, 0, 1) / 2)));
    }
}
