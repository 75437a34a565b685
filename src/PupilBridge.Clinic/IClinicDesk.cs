using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>
/// What people can do and see. The command line, and later the web page and the web API, go through this and nothing else. All that
/// crosses it are plain records of data, so that it can be called in the service's own process or over its local socket.
/// </summary>
public interface IClinicDesk
{
    /// <summary>Records what a person entered, once, however often it is sent.</summary>
    /// <param name="entry">The entry with the id made where it was typed.</param>
    /// <param name="cancellationToken">Gives up waiting; the entry may be recorded all the same, and can be sent again.</param>
    /// <returns>Where it stands in the journal once it is on disk, or why it was not taken.</returns>
    Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken);

    /// <summary>Lists exams, the latest opened first.</summary>
    /// <param name="request">Which ones.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken);

    /// <summary>Shows one exam whole.</summary>
    /// <param name="exam">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such exam.</returns>
    Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken);

    /// <summary>Writes the chart text of one exam.</summary>
    /// <param name="exam">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such exam.</returns>
    Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken);

    /// <summary>Says what is asked for now in one exam.</summary>
    /// <param name="exam">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such exam.</returns>
    Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken);

    /// <summary>Lists signed versions on their way to other systems, in the order of their signatures.</summary>
    /// <param name="part">One of <see cref="OutboxParts.All"/>.</param>
    /// <param name="after">Where the page before ended; null for the first page.</param>
    /// <param name="limit">The most to list, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<OutboxPage> ListOutboxAsync(string part, string? after, int limit, CancellationToken cancellationToken);

    /// <summary>Lists patients by number.</summary>
    /// <param name="after">The number after which to go on; null for the first page.</param>
    /// <param name="limit">The most patients to list, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken);

    /// <summary>
    /// Lists patients whose last visit lies before a time, the longest ago first. A page may be short, or empty, though more follow.
    /// </summary>
    /// <param name="lastVisitBefore">The time.</param>
    /// <param name="after">Where the page before ended; null for the first page.</param>
    /// <param name="limit">The most patients to list, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<DueList> ListDueAsync(
        DateTimeOffset lastVisitBefore,
        string? after,
        int limit,
        CancellationToken cancellationToken
    );

    /// <summary>Lists the instruments and the state of their lines.</summary>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken);

    /// <summary>
    /// Shows what goes on, as it goes on: first every lane as it is, then each lane again whenever something about it changed. One
    /// who cannot keep up sees fewer of the steps between, never an older state after a newer one.
    /// </summary>
    /// <param name="instrument">The serial number of one instrument; null for all.</param>
    /// <param name="cancellationToken">Ends it.</param>
    IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken);
}
