using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Desk;
using PupilBridge.ExamLog;
using PupilBridge.Worker;
using PupilBridge.Worker.Offline;

namespace PupilBridge.Hosting;

/// <summary>The desk of the running service, as commands reach it over the local socket.</summary>
/// <param name="desk">The desks, with a note of what they show.</param>
/// <param name="bridge">The running bridge.</param>
/// <param name="parts">What it is made of.</param>
internal sealed partial class BridgeDesk(AuditedDesk desk, Bridge bridge, BridgeParts parts)
    : CommandDesk(desk),
        IBridgeDesk
{
    /// <inheritdoc/>
    public Task<AuditPage> ListAuditAsync(AuditSearch search, CancellationToken cancellationToken) =>
        desk.ListAuditAsync(search, cancellationToken);

    /// <inheritdoc/>
    public Task NoteBackupAsync(string account, string destination, CancellationToken cancellationToken) =>
        desk.NoteBackupAsync(account, destination).WaitAsync(cancellationToken);

    /// <inheritdoc/>
    public Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken) =>
        desk.ListOutgoingAsync(search, cancellationToken);

    /// <inheritdoc/>
    public Task<OutgoingRecord?> ShowOutgoingAsync(long exam, int? version, CancellationToken cancellationToken) =>
        desk.ShowOutgoingAsync(exam, version, cancellationToken);

    /// <inheritdoc/>
    public Task<PatientView?> ShowPatientAsync(string patient, CancellationToken cancellationToken) =>
        desk.ShowPatientAsync(patient, cancellationToken);

    /// <inheritdoc/>
    public Task<PatientHistory> HistoryAsync(string patient, int limit, CancellationToken cancellationToken) =>
        desk.HistoryAsync(patient, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<ExamLogVerdict> CheckExamLogAsync(CancellationToken cancellationToken) =>
        Task.Run(() => Verdict(ProjectionCheck.Beside(bridge, parts, cancellationToken)), cancellationToken);

    /// <inheritdoc/>
    public async Task<RebuiltExamLog> RebuildExamLogAsync(CancellationToken cancellationToken) =>
        Rebuilt(await bridge.ExamLog.RebuildAsync("asked for by a person", cancellationToken).ConfigureAwait(false));

    /// <inheritdoc/>
    public Task<long> DurableAsync(CancellationToken cancellationToken) =>
        Task.FromResult(bridge.Keeper.Durable.Sequence);

    /// <inheritdoc/>
    public Task<HeadOfJournal> HeadAsync(CancellationToken cancellationToken)
    {
        var head = bridge.Keeper.Durable;
        return Task.FromResult(new HeadOfJournal(head.Sequence, head.Hash.ToString()));
    }

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
