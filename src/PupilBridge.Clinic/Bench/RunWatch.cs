using System.Runtime.CompilerServices;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Bench;

/// <summary>
/// One run as it changes. A change only says that there is something to look at; what is shown is read when it is shown. A viewer who
/// falls behind altogether is dropped by the live board and begins anew from the present state.
/// </summary>
internal sealed class RunWatch(IClinicHouse house, long run, Func<UtcTime> now)
{
    private (string Line, string? Other) line;

    private enum News
    {
        Change,
        Dropped,
        Closed,
    }

    /// <summary>The run, until cancelled or until the house closes.</summary>
    public async IAsyncEnumerable<BenchRunView> RunAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var news = run > 0 ? News.Change : News.Closed;
        while (news != News.Closed)
        {
            var (_, changes) = house.Watch();
            using (changes)
            {
                do
                {
                    while (changes.TryRead(out _))
                    {
                        // All that changed so far is in what is looked at next.
                    }

                    if (house.FindRun(new ExamId(run)) is not { } sitting)
                    {
                        yield break;
                    }

                    var view = RunViews.Of(house, sitting, now());
                    line = (view.InstrumentLine, view.OtherInstrument);
                    yield return view;
                    news = await WaitAsync(changes, cancellation).ConfigureAwait(false);
                } while (news == News.Change);
            }
        }
    }

    private async Task<News> WaitAsync(LiveSubscription<LiveChange> changes, CancellationToken cancellation)
    {
        try
        {
            await foreach (var change in changes.ReadAllAsync(cancellation).ConfigureAwait(false))
            {
                if (Concerns(change))
                {
                    return News.Change;
                }
            }

            return News.Closed;
        }
        catch (ListenerTooSlowException)
        {
            return News.Dropped;
        }
    }

    private bool Concerns(LiveChange change) =>
        change switch
        {
            LiveChange.RunChanged changed => changed.Run.Id.Value == run,
            // An instrument changes with every live position: only its line matters here, and whether it is this one.
            LiveChange.InstrumentChanged or LiveChange.PortChanged or LiveChange.PortGone => house.FindRun(new(run))
                is { } sitting
                && RunViews.LineOf(house, sitting) != line,
            LiveChange.TroubleChanged => true,
            _ => false,
        };
}
