using System.Globalization;

namespace PupilBridge.ExamLog;

/// <summary>Lists signed versions on their way to other systems, by how far they are, in the order of their signatures.</summary>
internal static class OutboxLister
{
    /// <summary>Reads one page: one range of the keys.</summary>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    public static Page<StoredOutboxItem> List(
        DocumentFile file,
        DocumentShelf<StoredOutboxItem> outbox,
        OutboxList list,
        string? after,
        int limit
    )
    {
        ExamLister.RequireLimit(limit);
        var name = OutboxKind.NameOf(list);
        var lower = after is null ? SortKey.Edge(name, long.MinValue) : SortKey.Edge(name, SequenceIn(after) + 1);
        var found = SteadyReading.Read(
            file,
            "listing the outbox",
            database =>
            {
                var keys = outbox.Keys!.Read(database, lower, SortKey.End(name), limit + 1, falling: false);
                var read = outbox.FindMany(database, keys.ConvertAll(SortKey.IdIn));
                return Belong(read, keys) ? read : null;
            }
        );
        return found.Count <= limit
            ? new Page<StoredOutboxItem>(found, null)
            : new Page<StoredOutboxItem>(
                found[..limit],
                found[limit - 1].Sequence.ToString(CultureInfo.InvariantCulture)
            );
    }

    private static bool Belong(List<StoredOutboxItem> found, List<string> keys) =>
        found.Count == keys.Count
        && found.Zip(keys).All(pair => OutboxKind.Instance.KeysOf(pair.First).Contains(pair.Second));

    private static long SequenceIn(string place) =>
        long.TryParse(place, NumberStyles.None, CultureInfo.InvariantCulture, out var sequence)
            ? sequence
            : throw new ArgumentException(
                $"'{place}' is no place in the outbox; leave it out to start with the first."
            );
}
