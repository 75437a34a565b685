using System.Globalization;
using Microsoft.Playwright;

namespace PupilBridge.Browser.Lanes;

/// <summary>What a lane's page showed after one of its frames was painted.</summary>
/// <param name="At">When the frame was painted, in ms since 1970 by the machine's clock.</param>
/// <param name="Received">The number of the last event that the page knows of.</param>
/// <param name="Right">The right scale's position as it stands there; empty if none does.</param>
/// <param name="Left">The left scale's position as it stands there.</param>
public sealed record PaintedFrame(double At, long Received, string Right, string Left);

/// <summary>
/// Notes within a lane's page what it shows, frame by frame: after each change of the document it waits for the frame that draws it, and
/// takes the time in the first task after that frame.
/// </summary>
public static class PaintWatch
{
    private const string Script = """
        () => {
            const frames = (window.paintedFrames = []);
            let [isWaiting, isStale] = [false, false];
            const textOf = (id) => document.getElementById(id)?.textContent ?? "";
            const look = () => {
                if (isWaiting) {
                    isStale = true;
                    return;
                }
                isWaiting = true;
                requestAnimationFrame(() => {
                    isStale = false;
                    const shown = [document.body.dataset.received ?? "0", textOf("right-position"), textOf("left-position")];
                    const after = new MessageChannel();
                    after.port1.onmessage = () => {
                        frames.push([String(performance.timeOrigin + performance.now()), ...shown]);
                        isWaiting = false;
                        if (isStale) {
                            look();
                        }
                    };
                    after.port2.postMessage(0);
                });
            };
            new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
        }
        """;

    /// <summary>Begins to note.</summary>
    /// <param name="page">The lane's page.</param>
    public static Task BeginAsync(IPage page) => page.EvaluateAsync(Script);

    /// <summary>What was noted so far.</summary>
    /// <param name="page">The lane's page.</param>
    public static async Task<IReadOnlyList<PaintedFrame>> ReadAsync(IPage page)
    {
        var frames = await page.EvaluateAsync<string[][]>("() => window.paintedFrames").ConfigureAwait(false);
        return
        [
            .. frames.Select(f => new PaintedFrame(
                double.Parse(f[0], CultureInfo.InvariantCulture),
                long.Parse(f[1], CultureInfo.InvariantCulture),
                f[2],
                f[3]
            )),
        ];
    }

    /// <summary>By how much the page's clock differs from this program's: both are the machine's, so by nothing but the asking.</summary>
    /// <param name="page">The page.</param>
    /// <param name="time">This program's clock.</param>
    /// <returns>The difference and how uncertain it is, in ms.</returns>
    public static async Task<(double Difference, double Uncertainty)> CompareClocksAsync(IPage page, TimeProvider time)
    {
        (double Difference, double Uncertainty) best = (0, double.MaxValue);
        for (var i = 0; i < 30; i++)
        {
            var before = Milliseconds(time);
            var there = await page.EvaluateAsync<double>("() => performance.timeOrigin + performance.now()")
                .ConfigureAwait(false);
            var half = (Milliseconds(time) - before) / 2;
            if (half < best.Uncertainty)
                best = (there - before - half, half);
        }

        return best;
    }

    /// <summary>The time by a clock, in ms since 1970.</summary>
    /// <param name="time">The clock.</param>
    public static double Milliseconds(TimeProvider time) =>
        (time.GetUtcNow() - DateTimeOffset.UnixEpoch).TotalMilliseconds;
}
