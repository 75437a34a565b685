using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Bench;

/// <summary>The service bench of a house. What cannot be shown ends in an <see cref="EntryProblemException"/> with words for a person.</summary>
/// <param name="house">The house.</param>
/// <param name="time">The clinic's clock.</param>
/// <remarks>Safe for several threads.</remarks>
public sealed class BenchDesk(IClinicHouse house, TimeProvider time) : IBenchDesk
{
    /// <inheritdoc/>
    public Task<BenchOverview> BenchAsync(CancellationToken cancellationToken) =>
        ReadAsync(() => BenchOverviews.Of(house, Now), cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<BenchRunLine>> ListRunsAsync(
        string instrument,
        long? before,
        int limit,
        CancellationToken cancellationToken
    ) => ReadAsync(() => RunLines.List(house, Given.Serial(instrument), before, limit), cancellationToken);

    /// <inheritdoc/>
    public Task<BenchRunView?> ShowRunAsync(long run, CancellationToken cancellationToken) =>
        ReadAsync(
            () => run > 0 && house.FindRun(new ExamId(run)) is { } found ? RunViews.Of(house, found, Now) : null,
            cancellationToken
        );

    /// <inheritdoc/>
    public IAsyncEnumerable<BenchRunView> WatchRunAsync(long run, CancellationToken cancellationToken) =>
        new RunWatch(house, run, () => Now).RunAsync(cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<CertificateLine>> ListCertificatesAsync(
        string instrument,
        CancellationToken cancellationToken
    ) => ReadAsync(() => CertificateViews.List(house, Given.Serial(instrument), Now), cancellationToken);

    /// <inheritdoc/>
    public Task<CertificateDraft?> DraftCertificateAsync(long run, CancellationToken cancellationToken) =>
        ReadAsync(
            () => run > 0 && house.FindRun(new ExamId(run)) is { } found ? Issuing.Draft(house, found, Now) : null,
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<CertificateView?> ShowCertificateAsync(long number, CancellationToken cancellationToken) =>
        ReadAsync(() => CertificateViews.Of(house, number, Now), cancellationToken);

    /// <inheritdoc/>
    public Task<DriftView?> DriftAsync(string instrument, CancellationToken cancellationToken) =>
        ReadAsync(() => Drifts.Of(house, Given.Serial(instrument), Now), cancellationToken);

    /// <inheritdoc/>
    public Task<WhatIfPage> WhatIfAsync(WhatIfRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        return ReadAsync(() => WhatIfs.Of(house, request), cancellationToken);
    }

    private UtcTime Now => UtcTime.From(time.GetUtcNow());

    private Task<T> ReadAsync<T>(Func<T> answer, CancellationToken cancellation) =>
        Answers.FromAsync(
            () => house.ExamsWaitFor is { } wait ? throw new EntryProblemException(wait) : answer(),
            cancellation
        );
}
