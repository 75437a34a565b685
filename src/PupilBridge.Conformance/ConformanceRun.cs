using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Judging;
using PupilBridge.Conformance.Lines;
using PupilBridge.Conformance.Steps;

namespace PupilBridge.Conformance;

/// <summary>Examines an attached instrument against docs/protocol.md.</summary>
public static class ConformanceRun
{
    /// <summary>Runs all checks that can be run.</summary>
    /// <param name="wire">The line, just opened; nobody else reads it.</param>
    /// <param name="plan">What the run may do.</param>
    /// <param name="tell">Takes each line as it crosses; null for nobody.</param>
    /// <param name="cancel">Gives up; nothing is reported then.</param>
    /// <returns>What was found.</returns>
    /// <exception cref="Ports.PortLostException">The port was lost.</exception>
    public static async Task<CheckReport> RunAsync(
        IWire wire,
        CheckPlan plan,
        Action<WireLine>? tell,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(plan);
        var report = new CheckReport();
        var bench = new Bench(new RawHost(wire, tell), report, plan, cancel);
        if (await Meeting.RunAsync(bench).ConfigureAwait(false))
        {
            await Receiving.RunAsync(bench).ConfigureAwait(false);
            await SendingAgain.RunAsync(bench).ConfigureAwait(false);
            await OtherHost.RunAsync(bench).ConfigureAwait(false);
            await Acknowledging.WrongAsync(bench).ConfigureAwait(false);
            await Commanding.RunAsync(bench).ConfigureAwait(false);
            await Holding.RunAsync(bench).ConfigureAwait(false);
            await bench.TryAsync(Acknowledging.RightAsync).ConfigureAwait(false);
            await bench.TryAsync(Acknowledging.ForgottenAsync).ConfigureAwait(false);
            await ByHand.RunAsync(bench).ConfigureAwait(false);
            var quiet = bench.Host.Mark;
            await bench.ListenHoldingAsync(Math.Max(6, plan.Endurance.TotalSeconds)).ConfigureAwait(false);
            EventJudge.Judge(bench);
            BeatJudge.Judge(bench, quiet);
            EnduranceJudge.Judge(bench);
            PositionJudge.Judge(bench);
            KindJudge.Judge(bench);
            if (bench.Filling is null)
            {
                GapJudge.Unasked(bench);
            }

            ScaleJudge.Judge(bench);
            SteadyJudge.Judge(bench);
        }

        LineJudge.Judge(bench);
        return report;
    }
}
