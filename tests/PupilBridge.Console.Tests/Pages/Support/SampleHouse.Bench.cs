using System.Runtime.CompilerServices;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>The service bench of the sample house.</summary>
internal sealed partial class SampleHouse : IBenchDesk
{
    public BenchOverview Bench { get; set; } = SampleBench.Overview;

    public Dictionary<long, BenchRunView> Runs { get; } =
        SampleBench.Runs.ToDictionary(run => run.Line.Run, run => run);

    public Dictionary<long, CertificateView> Certificates { get; } = new() { [12] = SampleBench.Certificate };

    public IReadOnlyList<CertificateLine> CertificateLines { get; set; } = SampleBench.CertificateLines;

    public CertificateDraft? Draft { get; set; } = SampleBench.Draft;

    public DriftView? Drift { get; set; } = SampleBench.Drift;

    public Task<BenchOverview> BenchAsync(CancellationToken cancellationToken) => Task.FromResult(Bench);

    public Task<IReadOnlyList<BenchRunLine>> ListRunsAsync(
        string instrument,
        long? before,
        int limit,
        CancellationToken cancellationToken
    ) =>
        Task.FromResult<IReadOnlyList<BenchRunLine>>([
            .. Runs.Values.Select(run => run.Line).Where(line => before is null || line.Run < before).Take(limit),
        ]);

    public Task<BenchRunView?> ShowRunAsync(long run, CancellationToken cancellationToken) =>
        Task.FromResult(Runs.GetValueOrDefault(run));

    public async IAsyncEnumerable<BenchRunView> WatchRunAsync(
        long run,
        [EnumeratorCancellation] CancellationToken cancellationToken
    )
    {
        if (await ShowRunAsync(run, cancellationToken) is { } view)
        {
            yield return view;
        }
    }

    public Task<IReadOnlyList<CertificateLine>> ListCertificatesAsync(
        string instrument,
        CancellationToken cancellationToken
    ) => Task.FromResult(CertificateLines);

    public Task<CertificateDraft?> DraftCertificateAsync(long run, CancellationToken cancellationToken) =>
        Task.FromResult(run == SampleBench.FinishedRun ? Draft : null);

    public Task<CertificateView?> ShowCertificateAsync(long number, CancellationToken cancellationToken) =>
        Task.FromResult(Certificates.GetValueOrDefault(number));

    public Task<DriftView?> DriftAsync(string instrument, CancellationToken cancellationToken) =>
        Task.FromResult(Drift?.Instrument == instrument ? Drift : null);

    public Task<WhatIfPage> WhatIfAsync(WhatIfRequest request, CancellationToken cancellationToken) =>
        throw new NotSupportedException("No page asks what would be.");
}
