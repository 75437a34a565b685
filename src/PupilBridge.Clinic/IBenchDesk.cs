using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>
/// The service bench for reading: calibrations, runs, certificates, drift. What is entered goes by <see cref="IClinicDesk.EnterAsync"/>.
/// </summary>
public interface IBenchDesk
{
    /// <summary>Every instrument with its calibration, lamps and open run, and the sets of discs.</summary>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<BenchOverview> BenchAsync(CancellationToken cancellationToken);

    /// <summary>The runs of an instrument, the latest first.</summary>
    /// <param name="instrument">Its serial number.</param>
    /// <param name="before">Only runs before this one; null for the latest.</param>
    /// <param name="limit">The most to list, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<IReadOnlyList<BenchRunLine>> ListRunsAsync(
        string instrument,
        long? before,
        int limit,
        CancellationToken cancellationToken
    );

    /// <summary>One run with all its readings, what is asked for now, and what it says so far.</summary>
    /// <param name="run">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such run.</returns>
    Task<BenchRunView?> ShowRunAsync(long run, CancellationToken cancellationToken);

    /// <summary>One run as it changes: at once as it is, then whenever something of it was recorded, or its line came or went.</summary>
    /// <param name="run">Its number.</param>
    /// <param name="cancellationToken">Ends it.</param>
    /// <returns>Ends at once if there is no such run, and with the service.</returns>
    IAsyncEnumerable<BenchRunView> WatchRunAsync(long run, CancellationToken cancellationToken);

    /// <summary>The certificates of an instrument, the latest first.</summary>
    /// <param name="instrument">Its serial number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<IReadOnlyList<CertificateLine>> ListCertificatesAsync(string instrument, CancellationToken cancellationToken);

    /// <summary>The certificate that a run would get now.</summary>
    /// <param name="run">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such run.</returns>
    Task<CertificateDraft?> DraftCertificateAsync(long run, CancellationToken cancellationToken);

    /// <summary>A certificate as it was issued.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is none of that number.</returns>
    Task<CertificateView?> ShowCertificateAsync(long number, CancellationToken cancellationToken);

    /// <summary>How an instrument's scales, homes and stimuli went over time.</summary>
    /// <param name="instrument">Its serial number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if nobody knows the instrument.</returns>
    Task<DriftView?> DriftAsync(string instrument, CancellationToken cancellationToken);

    /// <summary>What exams would read under another calibration. Nothing is changed.</summary>
    /// <param name="request">Which exams, under which certificate.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<WhatIfPage> WhatIfAsync(WhatIfRequest request, CancellationToken cancellationToken);
}
