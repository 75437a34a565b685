using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Desk;
using PupilBridge.ExamLog;
using PupilBridge.Worker;
using PupilBridge.Worker.Offline;

namespace PupilBridge.Hosting;

/// <summary>The desk of the running service, as commands reach it over the local socket.</summary>
/// <param name="clinic">The clinic's desk.</param>
/// <param name="bridge">The running bridge.</param>
/// <param name="parts">What it is made of.</param>
internal sealed class BridgeDesk(IClinicDesk clinic, Bridge bridge, BridgeParts parts) : IBridgeDesk
{
    /// <inheritdoc/>
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken) =>
        clinic.EnterAsync(entry, cancellationToken);

    /// <inheritdoc/>
    public Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken) =>
        clinic.ListExamsAsync(request, cancellationToken);

    /// <inheritdoc/>
    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        clinic.ShowExamAsync(exam, cancellationToken);

    /// <inheritdoc/>
    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        clinic.ChartAsync(exam, cancellationToken);

    /// <inheritdoc/>
    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        clinic.AskedForAsync(exam, cancellationToken);

    /// <inheritdoc/>
    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        clinic.ListPatientsAsync(after, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        clinic.ListInstrumentsAsync(cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        clinic.WatchAsync(instrument, cancellationToken);

    /// <inheritdoc/>
    public Task<ExamLogVerdict> CheckExamLogAsync(CancellationToken cancellationToken) =>
        Task.Run(() => Verdict(ProjectionCheck.Beside(bridge, parts, cancellationToken)), cancellationToken);

    /// <inheritdoc/>
    public async Task<RebuiltExamLog> RebuildExamLogAsync(CancellationToken cancellationToken) =>
        Rebuilt(await bridge.ExamLog.RebuildAsync("asked for by a person", cancellationToken).ConfigureAwait(false));

    /// <inheritdoc/>
    public Task<long> DurableAsync(CancellationToken cancellationToken) =>
        Task.FromResult(bridge.Keeper.Durable.Sequence);

    /// <summary>A check of the projection as commands print it.</summary>
    /// <param name="check">The check.</param>
    /// <returns>The same as plain data.</returns>
    public static ExamLogVerdict Verdict(ProjectionCheck check) =>
        new(
            check.IsSame,
            check.UpTo,
            Math.Max(check.UpTo, check.JournalEnd),
            check.InExamLog?.ToString(),
            check.FromJournal?.ToString(),
            check.Trouble
        );

    /// <summary>A rebuild as commands print it.</summary>
    /// <param name="built">The rebuild.</param>
    /// <returns>The same as plain data.</returns>
    public static RebuiltExamLog Rebuilt(ExamLogRebuilt built) =>
        new(built.LastApplied, built.Digest.Documents, built.Digest.Value, built.OldFiles);
}
