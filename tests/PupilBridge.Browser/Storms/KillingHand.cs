using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Served;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Browser.Storms;

/// <summary>
/// Kills the service while an exam runs, waits a little, and starts it again. Half of the kills fall anywhere, half around the moment at
/// which the examiner presses a key.
/// </summary>
/// <param name="console">The service.</param>
/// <param name="lane">The instrument.</param>
/// <param name="page">The page before the examiner.</param>
/// <param name="most">How many kills in all.</param>
/// <param name="seed">Chooses the moments.</param>
internal sealed class KillingHand(ServedConsole console, SteeredLane lane, LanePage page, int most, int seed)
{
    private const string Waiting = "#waiting li[data-state=waiting]";
    private const int LongestPause = 5_000;
    private const int LongestDown = 3_000;

    // From the examiner's turn to the key that is down and sent takes some 500 ms: see LanePage.
    private const int BeforeKey = 350;
    private const int AfterKey = 900;
    private readonly Random random = new(seed);
    private volatile TaskCompletionSource? awaited;

    internal int Kills { get; private set; }

    internal int WithAnswerWaiting { get; private set; }

    internal int WithEventsUnderWay { get; private set; }

    /// <summary>Told by the examiner's voice of each judgement just before it is entered; enters nothing itself.</summary>
    internal Task<bool> HearAsync(SpokenJudgement judgement)
    {
        awaited?.TrySetResult();
        return Task.FromResult(false);
    }

    /// <summary>Kills until the exam is over or there were enough kills; the service runs when it returns.</summary>
    internal async Task RunAsync(CancellationToken over)
    {
        try
        {
            while (Kills < most)
            {
                await Task.Delay(random.Next(LongestPause), over).ConfigureAwait(false);
                if (random.Next(2) == 0)
                {
                    awaited = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                    await awaited.Task.WaitAsync(over).ConfigureAwait(false);
                    await Task.Delay(random.Next(BeforeKey, AfterKey), over).ConfigureAwait(false);
                }

                await KillAsync().ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (over.IsCancellationRequested)
        {
            // The exam is over.
        }
    }

    private async Task KillAsync()
    {
        var kept = lane.Served.With(i => i.Link.KeptCount);
        console.Kill();
        Kills++;
        WithEventsUnderWay += kept > 0 ? 1 : 0;
        await Task.Delay(random.Next(LongestDown), CancellationToken.None).ConfigureAwait(false);
        WithAnswerWaiting += await page.Page.Locator(Waiting).CountAsync().ConfigureAwait(false) > 0 ? 1 : 0;
        await console.StartAgainAsync().ConfigureAwait(false);
    }
}
