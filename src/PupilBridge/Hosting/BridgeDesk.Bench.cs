using PupilBridge.Clinic.Views;

namespace PupilBridge.Hosting;

/// <content>The service desk.</content>
internal sealed partial class BridgeDesk
{
    /// <inheritdoc/>
    public Task<BenchOverview> BenchAsync(CancellationToken cancellationToken) => desk.BenchAsync(cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<BenchRunLine>> ListRunsAsync(
        string instrument,
        long? before,
        int limit,
        CancellationToken cancellationToken
    ) => desk.ListRunsAsync(instrument, before, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<BenchRunView?> ShowRunAsync(long run, CancellationToken cancellationToken) =>
        desk.ShowRunAsync(run, cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<BenchRunView> WatchRunAsync(long run, CancellationToken cancellationToken) =>
        desk.WatchRunAsync(run, cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<CertificateLine>> ListCertificatesAsync(
        string instrument,
        CancellationToken cancellationToken
    ) => desk.ListCertificatesAsync(instrument, cancellationToken);

    /// <inheritdoc/>
    public Task<CertificateDraft?> DraftCertificateAsync(long run, CancellationToken cancellationToken) =>
        desk.DraftCertificateAsync(run, cancellationToken);

    /// <inheritdoc/>
    public Task<CertificateView?> ShowCertificateAsync(long number, CancellationToken cancellationToken) =>
        desk.ShowCertificateAsync(number, cancellationToken);

    /// <inheritdoc/>
    public Task<DriftView?> DriftAsync(string instrument, CancellationToken cancellationToken) =>
        desk.DriftAsync(instrument, cancellationToken);

    /// <inheritdoc/>
    public Task<WhatIfPage> WhatIfAsync(WhatIfRequest request, CancellationToken cancellationToken) =>
        desk.WhatIfAsync(request, cancellationToken);
}
