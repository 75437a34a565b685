using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.People;

/// <content>The service bench as one caller may see it.</content>
public sealed partial class GuardedDesk
{
    /// <inheritdoc/>
    public Task<BenchOverview> BenchAsync(CancellationToken cancellationToken) =>
        With(Roles.Calibrations, () => bench.BenchAsync(cancellationToken));

    /// <inheritdoc/>
    public Task<IReadOnlyList<BenchRunLine>> ListRunsAsync(
        string instrument,
        long? before,
        int limit,
        CancellationToken cancellationToken
    ) => With(Roles.Calibrations, () => bench.ListRunsAsync(instrument, before, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<BenchRunView?> ShowRunAsync(long run, CancellationToken cancellationToken) =>
        With(Roles.Calibrations, () => bench.ShowRunAsync(run, cancellationToken));

    /// <inheritdoc/>
    public IAsyncEnumerable<BenchRunView> WatchRunAsync(long run, CancellationToken cancellationToken) =>
        With(Roles.Calibrations, () => bench.WatchRunAsync(run, cancellationToken));

    /// <inheritdoc/>
    public Task<IReadOnlyList<CertificateLine>> ListCertificatesAsync(
        string instrument,
        CancellationToken cancellationToken
    ) => With(Roles.Calibrations, () => bench.ListCertificatesAsync(instrument, cancellationToken));

    /// <inheritdoc/>
    public Task<CertificateDraft?> DraftCertificateAsync(long run, CancellationToken cancellationToken) =>
        With(Roles.Bench, () => bench.DraftCertificateAsync(run, cancellationToken));

    /// <inheritdoc/>
    public Task<CertificateView?> ShowCertificateAsync(long number, CancellationToken cancellationToken) =>
        With(Roles.Calibrations, () => bench.ShowCertificateAsync(number, cancellationToken));

    /// <inheritdoc/>
    public Task<DriftView?> DriftAsync(string instrument, CancellationToken cancellationToken) =>
        With(Roles.Calibrations, () => bench.DriftAsync(instrument, cancellationToken));

    /// <inheritdoc/>
    /// <remarks>It shows sizes of patients' pupils, so that it wants whoever may see records.</remarks>
    public Task<WhatIfPage> WhatIfAsync(WhatIfRequest request, CancellationToken cancellationToken) =>
        With(Roles.Records, () => bench.WhatIfAsync(request, cancellationToken));
}
