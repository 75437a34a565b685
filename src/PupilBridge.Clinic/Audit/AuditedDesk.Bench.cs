using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Audit;

/// <content>The service bench shows no patient, and needs no note.</content>
public sealed partial class AuditedDesk
{
    /// <inheritdoc/>
    public Task<BenchOverview> BenchAsync(CancellationToken cancellationToken) => bench.BenchAsync(cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<BenchRunLine>> ListRunsAsync(
        string instrument,
        long? before,
        int limit,
        CancellationToken cancellationToken
    ) => bench.ListRunsAsync(instrument, before, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<BenchRunView?> ShowRunAsync(long run, CancellationToken cancellationToken) =>
        bench.ShowRunAsync(run, cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<BenchRunView> WatchRunAsync(long run, CancellationToken cancellationToken) =>
        bench.WatchRunAsync(run, cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<CertificateLine>> ListCertificatesAsync(
        string instrument,
        CancellationToken cancellationToken
    ) => bench.ListCertificatesAsync(instrument, cancellationToken);

    /// <inheritdoc/>
    public Task<CertificateDraft?> DraftCertificateAsync(long run, CancellationToken cancellationToken) =>
        bench.DraftCertificateAsync(run, cancellationToken);

    /// <inheritdoc/>
    public Task<CertificateView?> ShowCertificateAsync(long number, CancellationToken cancellationToken) =>
        bench.ShowCertificateAsync(number, cancellationToken);

    /// <inheritdoc/>
    public Task<DriftView?> DriftAsync(string instrument, CancellationToken cancellationToken) =>
        bench.DriftAsync(instrument, cancellationToken);
}
