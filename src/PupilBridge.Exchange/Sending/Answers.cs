namespace PupilBridge.Exchange.Sending;

/// <summary>What a server's answer to a posted record means.</summary>
public abstract record Verdict
{
    private Verdict() { }

    /// <summary>It has the record.</summary>
    /// <param name="Location">Where; null if it did not say.</param>
    public sealed record Stored(string? Location) : Verdict;

    /// <summary>It does not want it, and never will as it is.</summary>
    /// <param name="Reason">Why.</param>
    public sealed record Refused(string Reason) : Verdict;

    /// <summary>It has more than one that fits.</summary>
    /// <param name="Reason">What it said.</param>
    public sealed record SeveralThere(string Reason) : Verdict;

    /// <summary>It cannot just now.</summary>
    /// <param name="Reason">What it said.</param>
    /// <param name="IsServer">Whether the server as a whole cannot, and not only this record.</param>
    /// <param name="RetryAfter">When it wants to be asked again; null if it did not say.</param>
    public sealed record NotNow(string Reason, bool IsServer, TimeSpan? RetryAfter) : Verdict;

    /// <summary>It says that all is well and shows nothing of it.</summary>
    /// <param name="Reason">What is missing.</param>
    public sealed record Unbelievable(string Reason) : Verdict;
}

/// <summary>An answer as it came.</summary>
/// <param name="Code">The HTTP status code.</param>
/// <param name="Body">What it held.</param>
/// <param name="RetryAfter">When the server wants to be asked again; null if it did not say.</param>
public sealed record ServerAnswer(int Code, string Body, TimeSpan? RetryAfter);
