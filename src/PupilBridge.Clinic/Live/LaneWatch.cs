using System.Runtime.CompilerServices;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Live;

/// <summary>
/// Shows lanes as they change. A change only says which lane to look at anew; what is shown is read when it is shown, so that a
/// viewer who is slow sees fewer steps and never an old one. One who falls behind altogether is dropped by the board and starts over
/// from the present state, without noticing more than that.
/// </summary>
/// <param name="house">Where to look.</param>
/// <param name="instrument">The serial number of the one lane wanted; null for all.</param>
internal sealed class LaneWatch(IClinicHouse house, string? instrument)
{
    private readonly HashSet<string> stale = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ShownExam?> shown = new(StringComparer.Ordinal);

    /// <summary>The lanes as they change, until cancelled or until the house closes.</summary>
    public async IAsyncEnumerable<LaneView> RunAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var goesOn = true;
        while (goesOn)
        {
            var (snapshot, changes) = house.Watch();
            using (changes)
            {
                MarkAll(snapshot);
                do
                {
                    foreach (var lane in TakeStale())
                    {
                        cancellation.ThrowIfCancellationRequested();
                        yield return lane;
                    }

                    goesOn = await WaitAsync(changes, cancellation).ConfigureAwait(false);
                } while (goesOn && stale.Count > 0);
            }
        }
    }

    /// <summary>Waits for changes and takes all that are there.</summary>
    /// <returns>False when the house has closed. True without anything stale: this viewer was dropped and starts over.</returns>
    private async Task<bool> WaitAsync(LiveSubscription<LiveChange> changes, CancellationToken cancellation)
    {
        try
        {
            await foreach (var change in changes.ReadAllAsync(cancellation).ConfigureAwait(false))
            {
                Mark(change);
                while (changes.TryRead(out var more))
                {
                    Mark(more);
                }

                if (stale.Count > 0)
                {
                    return true;
                }
            }

            return false;
        }
        catch (ListenerTooSlowException)
        {
            stale.Clear();
            return true;
        }
    }

    private IEnumerable<LaneView> TakeStale()
    {
        var serials = stale.Order(StringComparer.Ordinal).ToList();
        stale.Clear();
        return serials.Select(Look).OfType<LaneView>();
    }

    private LaneView? Look(string serial)
    {
        var exam = shown.GetValueOrDefault(serial);
        var lane = InstrumentViews.Lane(house, serial, ref exam);
        shown[serial] = exam;
        return lane;
    }

    private void MarkAll(LiveSnapshot snapshot)
    {
        foreach (var live in snapshot.Instruments)
        {
            Mark(live.Serial.Value);
        }

        foreach (var serial in house.Book.Lanes.Keys)
        {
            Mark(serial);
        }
    }

    private void Mark(LiveChange change)
    {
        switch (change)
        {
            case LiveChange.InstrumentChanged instrumentChanged:
                Mark(instrumentChanged.Instrument.Serial.Value);
                break;
            case LiveChange.ExamChanged exam:
                Mark(exam.Exam.Serial.Value);
                break;
            case LiveChange.PortChanged { Port.Serial: { } serial }:
                Mark(serial.Value);
                break;
            case LiveChange.TroubleChanged:
                MarkAll(house.Look());
                break;
            default:
                break;
        }
    }

    private void Mark(string serial)
    {
        if (instrument is null || instrument == serial)
        {
            stale.Add(serial);
        }
    }
}
