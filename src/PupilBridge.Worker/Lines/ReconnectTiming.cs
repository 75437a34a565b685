using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Lines;

/// <summary>How long to wait between two tries to open a port.</summary>
/// <param name="First">The wait after the first failure, before chance is taken into account.</param>
/// <param name="Cap">The longest wait.</param>
public sealed record ReconnectTiming(TimeSpan First, TimeSpan Cap)
{
    /// <summary>
    /// The wait after a failure: <c>min(cap, first · 2^failures)</c>, of which the upper half is left to chance. The
    /// chance stays when the cap is reached, so that many ports which lost one hub do not come back in step.
    /// </summary>
    /// <param name="failures">How many failures came before this one in a row, from 0.</param>
    /// <param name="chance">A number from 0 to 1.</param>
    /// <returns>Half of the full wait to the full wait, in whole milliseconds.</returns>
    public TimeSpan After(int failures, double chance)
    {
        var full = Math.Min(Cap.TotalSeconds, First.TotalSeconds * Math.Pow(2, Math.Clamp(failures, 0, 62)));
        return TimeSpan.FromMilliseconds(Math.Round(1000 * full * (0.5 + (Math.Clamp(chance, 0, 1) / 2))));
    }

    /// <summary>The timing after one kind of failure: a port that opens and says nothing is tried again soon.</summary>
    /// <param name="failure">What went wrong.</param>
    /// <returns>This timing, or one with a lower cap.</returns>
    public ReconnectTiming Below(Exception? failure) =>
        failure is LineLostException { Phase: PortPhase.Silent } && Cap > PortSupervisor.SilentCap
            ? this with
            {
                Cap = PortSupervisor.SilentCap,
            }
            : this;
}
