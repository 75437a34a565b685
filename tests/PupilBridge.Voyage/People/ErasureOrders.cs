using PupilBridge.Clinic.Entries;
using PupilBridge.Simulator;

namespace PupilBridge.Voyage.People;

/// <summary>
/// What was ordered to be erased, as the people at the desks know it: kept apart from the product, for the model. A number that was
/// erased is used no more as a rule; now and then another person gets it.
/// </summary>
/// <param name="chance">Decides about numbers.</param>
/// <param name="giving">Told whenever an order is about to be given: what befalls the machine just then.</param>
internal sealed class ErasureOrders(Chance chance, Action giving)
{
    private readonly Dictionary<string, ErasureOrder> orders = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> merged = new(StringComparer.Ordinal);
    private readonly HashSet<string> gone = new(StringComparer.Ordinal);
    private int fresh = 2000;

    /// <summary>The orders by the id of their entry.</summary>
    public IReadOnlyDictionary<string, ErasureOrder> Orders => orders;

    /// <summary>The numbers that were to be merged, and which number goes on for each.</summary>
    public IReadOnlyDictionary<string, string> Merged => merged;

    /// <summary>How often the service was gone before an order was answered.</summary>
    public int CutOff { get; private set; }

    /// <summary>Somebody says that two numbers are one person.</summary>
    public void Merge(string kept, string other) => merged[other] = kept;

    /// <summary>The number that the next patient says.</summary>
    /// <param name="number">The one that chance gave.</param>
    public string InUse(string number) => gone.Contains(number) && !chance.Happens(0.15) ? $"Q-{++fresh}" : number;

    /// <summary>An order is about to be given.</summary>
    /// <param name="entry">The order.</param>
    /// <param name="known">The last entry of the journal that is shown at the desk.</param>
    public void Give(ErasePatientEntry entry, long known)
    {
        var before = orders.GetValueOrDefault(entry.EntryId);
        orders[entry.EntryId] = new ErasureOrder(entry, known, before?.Times + 1 ?? 1, null);
        giving();
    }

    /// <summary>An order was answered for good.</summary>
    public void Answer(ErasePatientEntry entry, EntryOutcome outcome)
    {
        orders[entry.EntryId] = orders[entry.EntryId] with { IsDone = outcome is not EntryOutcome.Refused };
        if (outcome is EntryOutcome.Refused)
            return;
        gone.Add(entry.Patient);
        gone.UnionWith(merged.Where(m => m.Value == entry.Patient).Select(m => m.Key));
    }

    /// <summary>The service is gone, and an order was not answered.</summary>
    public void Lose() => CutOff++;
}

/// <summary>One order.</summary>
/// <param name="Entry">As it was given.</param>
/// <param name="Known">The last entry of the journal that was shown when it was given last.</param>
/// <param name="Times">How often it was given.</param>
/// <param name="IsDone">Whether it was answered as done, or refused; null for not answered.</param>
internal sealed record ErasureOrder(ErasePatientEntry Entry, long Known, int Times, bool? IsDone);
