using PupilBridge.Journal;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Scenarios.Service;

/// <summary>What a storm of kills came to.</summary>
/// <param name="Kills">How often the service was killed.</param>
/// <param name="KillsWithEventsUnderWay">Of these, while the instrument kept events that were not acknowledged yet.</param>
/// <param name="KillsAfterRecording">Of these, after at least one event was acknowledged in that life of the service.</param>
/// <param name="Exams">Exams that were begun meanwhile.</param>
/// <param name="Audit">The journal against the oracle.</param>
/// <param name="CameToRest">Whether all was acknowledged in the end.</param>
/// <param name="JournalIsSound">Whether the journal verifies after all of it.</param>
/// <param name="VerifySummary">What the verifier said.</param>
public sealed record KillStormResult(
    int Kills,
    int KillsWithEventsUnderWay,
    int KillsAfterRecording,
    int Exams,
    AuditResult Audit,
    bool CameToRest,
    bool JournalIsSound,
    string VerifySummary
);

/// <summary>
/// Kills the real service (SIGKILL) at random moments during running exams over a pseudo-terminal, starts it again each time,
/// and holds the journal against the oracle at the end.
/// </summary>
public static class KillStorm
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(40);

    /// <summary>Runs it.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="kills">How often to kill.</param>
    /// <param name="seed">Chooses the moments, person and model.</param>
    /// <param name="pace">How many times faster than life hands and eyes go.</param>
    public static async Task<KillStormResult> RunAsync(string folder, int kills, long seed, double pace)
    {
        var link = Path.Combine(folder, "lane");
        var data = Path.Combine(folder, "data");
        var random = new Random((int)seed);
        var (underWay, afterRecording) = (0, 0);
        await using var lane = new ServedLane(link, seed, FaultSet.None, pace);
        using var end = new CancellationTokenSource();
        var examining = lane.ExamineOnAndOnAsync(end.Token);
        for (var kill = 0; kill < kills; kill++)
        {
            var before = Acknowledged(lane);
            using var service = ServiceProcess.Start(data, link, "Bridge:ReconnectCap=1");

            // Most kills shall fall while events flow, some during the start: wait for flow in four of five.
            if (random.Next(5) > 0)
                await service
                    .UntilAsync(
                        () => Task.FromResult(Acknowledged(lane) > before),
                        Patience,
                        "Nothing was acknowledged"
                    )
                    .ConfigureAwait(false);
            await Task.Delay(random.Next(0, 700)).ConfigureAwait(false);
            var (kept, acknowledged) = lane.Served.With(i => (i.Link.KeptCount, i.Link.Acknowledged));
            service.Kill();
            underWay += kept > 0 ? 1 : 0;
            afterRecording += acknowledged > before ? 1 : 0;
        }

        var exams = await EndAsync(lane, data, link, end, examining).ConfigureAwait(false);
        var verified = JournalVerifier.Verify(RealDisk.Instance, JournalText.Folder(data));
        return new KillStormResult(
            kills,
            underWay,
            afterRecording,
            exams.Count,
            lane.Audit(data, settled: exams.AtRest),
            exams.AtRest,
            verified.IsSound,
            verified.Summary
        );
    }

    private static long Acknowledged(ServedLane lane) => lane.Served.With(i => i.Link.Acknowledged);

    private static async Task<(int Count, bool AtRest)> EndAsync(
        ServedLane lane,
        string data,
        string link,
        CancellationTokenSource end,
        Task<int> examining
    )
    {
        using var service = ServiceProcess.Start(data, link);
        await end.CancelAsync().ConfigureAwait(false);
        var exams = await examining.ConfigureAwait(false);
        var rest = await lane.CameToRestAsync(TimeSpan.FromSeconds(60)).ConfigureAwait(false);
        service.Stop();
        return (exams, rest);
    }
}
