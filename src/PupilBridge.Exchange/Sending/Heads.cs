using System.Globalization;
using PupilBridge.Clinic.Outbox;

namespace PupilBridge.Exchange.Sending;

/// <summary>Finds what comes next of each patient.</summary>
internal sealed class Heads(IOutbox outbox, SendingSettings settings)
{
    private const int PageSize = 200;

    /// <summary>The first version of each patient that is still to be sent, in the order of signatures.</summary>
    /// <param name="isBusy">Whether a patient's turn is not now; such patients are passed over whole.</param>
    public IEnumerable<(string Lane, OutboxTask Task)> Find(Func<string, bool> isBusy)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        string? after = null;
        do
        {
            var (items, next) = outbox.ListOpen(after, PageSize);
            foreach (var item in items)
            {
                var lane = LaneOf(item);
                // The list may lag behind the journal, so that the first of a patient may be done with already.
                if (
                    !seen.Contains(lane)
                    && !isBusy(lane)
                    && outbox.Look(item.Exam, item.Version) is { } task
                    && IsMeant(task)
                    && seen.Add(lane)
                )
                {
                    yield return (lane, task);
                }
            }

            after = next;
        } while (after is not null);
    }

    // What went out once is followed up whatever the settings say now.
    private bool IsMeant(OutboxTask task) =>
        task.MayBeThere || settings.SignedSince is not { } since || task.SignedAt >= since;

    private static string LaneOf(OutboxTask task) =>
        task.Patient ?? string.Create(CultureInfo.InvariantCulture, $"exam {task.Exam}");
}
