using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Scenarios.Service;

/// <summary>What one exam under faults over a pseudo-terminal came to.</summary>
/// <param name="Audit">The journal against the oracle.</param>
/// <param name="Fired">How often each fault happened.</param>
/// <param name="CameToRest">Whether all was acknowledged in the end.</param>
/// <param name="StillServing">Whether the service had neither ended nor stopped answering.</param>
/// <param name="StopTime">How long the clean stop took.</param>
/// <param name="Said">What the service said.</param>
public sealed record TerminalRunResult(
    AuditResult Audit,
    IReadOnlyDictionary<string, long> Fired,
    bool CameToRest,
    bool StillServing,
    TimeSpan StopTime,
    string Said
);

/// <summary>One exam with every fault at once between the real service and an instrument behind a pseudo-terminal.</summary>
public static class FaultsOverTerminal
{
    private static readonly TimeSpan LongestExam = TimeSpan.FromMinutes(3);
    private static readonly TimeSpan TimeToSettle = TimeSpan.FromSeconds(60);

    /// <summary>Runs it.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="seed">Chooses person, examiner, model and chance.</param>
    /// <param name="pace">How many times faster than life hands and eyes go; the line goes as in life.</param>
    public static async Task<TerminalRunResult> RunAsync(string folder, long seed, double pace)
    {
        // The exam is short by the clock, so each fault comes as often as in a longer one.
        var faults = FaultSet.Create(["all"], seed, intensity: Math.Min(pace, 4));
        var link = Path.Combine(folder, "lane");
        var data = Path.Combine(folder, "data");
        await using var lane = new ServedLane(link, seed, faults, pace);
        using var service = ServiceProcess.Start(data, link, "Bridge:ReconnectCap=1");
        using var patience = new CancellationTokenSource(LongestExam);
        await lane.ExamineAsync(seed, patience.Token).ConfigureAwait(false);
        lane.Served.EndFaults();
        var rest = await lane.CameToRestAsync(TimeToSettle).ConfigureAwait(false);
        var serving = !service.HasExited;
        var stop = service.Stop();
        return new TerminalRunResult(lane.Audit(data, settled: rest), faults.Fired, rest, serving, stop, service.Said);
    }
}
