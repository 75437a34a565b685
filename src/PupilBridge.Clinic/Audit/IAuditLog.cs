namespace PupilBridge.Clinic.Audit;

/// <summary>Where it is noted who saw what. Safe for several threads.</summary>
public interface IAuditLog
{
    /// <summary>
    /// Notes something and waits until it is on disk, but never long: what the disk does not take within a second is recorded later, or
    /// counted as missed. It never fails.
    /// </summary>
    /// <param name="note">What.</param>
    Task NoteAsync(AuditNote note);

    /// <summary>Lists notes, the latest first.</summary>
    /// <param name="search">Which ones.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<AuditPage> ListAsync(AuditSearch search, CancellationToken cancellationToken);
}

/// <summary>For tests and hosts without a data folder: nothing is kept.</summary>
public sealed class NoAuditLog : IAuditLog
{
    /// <summary>The one instance that is needed.</summary>
    public static NoAuditLog Instance { get; } = new();

    /// <inheritdoc/>
    public Task NoteAsync(AuditNote note) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task<AuditPage> ListAsync(AuditSearch search, CancellationToken cancellationToken) =>
        Task.FromResult(new AuditPage([], null));
}

/// <summary>Which notes.</summary>
public sealed record AuditSearch
{
    /// <summary>Only those about this patient's number; null for all.</summary>
    public string? Patient { get; init; }

    /// <summary>Only those of, or about, this person; null for all.</summary>
    public string? Person { get; init; }

    /// <summary>Only those from this moment on; null for all.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Only those before this moment; null for all.</summary>
    public DateTimeOffset? Before { get; init; }

    /// <summary>Where the page before ended; null for the first page.</summary>
    public string? After { get; init; }

    /// <summary>The most notes, 1 to 500.</summary>
    public int Limit { get; init; } = 50;
}

/// <summary>A page of notes.</summary>
/// <param name="Lines">The notes, the latest first.</param>
/// <param name="Next">Where to go on; null at the beginning of the stream. A page may be short, or empty, though more follow.</param>
public sealed record AuditPage(IReadOnlyList<AuditLine> Lines, string? Next);

/// <summary>A note with its place in the stream.</summary>
/// <param name="Number">Its place, from 1.</param>
/// <param name="Note">The note.</param>
public sealed record AuditLine(long Number, AuditNote Note);
