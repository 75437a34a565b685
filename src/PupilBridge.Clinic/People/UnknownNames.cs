namespace PupilBridge.Clinic.People;

/// <summary>
/// Counts wrong sign-ins for names that nobody has, in memory, so that such a name is locked like any other and a lock does not
/// tell whether a name exists. Not for several threads.
/// </summary>
/// <param name="most">The most names kept; the one first tried longest ago makes room.</param>
internal sealed class UnknownNames(int most = 1_000)
{
    private readonly Dictionary<string, Attempts> counted = new(StringComparer.OrdinalIgnoreCase);
    private readonly LinkedList<string> order = new();

    /// <summary>What was counted for a name.</summary>
    public Attempts Of(string who) => counted.GetValueOrDefault(who, Attempts.None);

    /// <summary>Remembers what is counted for a name now.</summary>
    public void Set(string who, Attempts attempts)
    {
        if (!counted.TryAdd(who, attempts))
        {
            counted[who] = attempts;
            return;
        }

        order.AddLast(who);
        if (order.Count > most)
        {
            counted.Remove(order.First!.Value);
            order.RemoveFirst();
        }
    }
}
