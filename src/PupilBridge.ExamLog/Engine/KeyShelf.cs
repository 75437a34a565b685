using System.IO.Hashing;
using System.Text;
using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>
/// Keys that lead to documents, for lists in which a document may stand several times or not at all: a collection of our own whose
/// ids are the keys, each ending in the id of its document.
/// </summary>
/// <remarks>
/// The engine can index an array, but such an index cannot be read key by key, so that nobody could ever compare it with the
/// documents. These keys are tallied and read through like documents, and a page of keys is read without any document.
/// </remarks>
/// <param name="name">The collection.</param>
internal sealed class KeyShelf(string name)
{
    private const int PageSize = 1000;

    /// <summary>The collection.</summary>
    public string Name => name;

    /// <summary>A key's check value, for tallies.</summary>
    public static long CheckOf(string key) => unchecked((long)XxHash3.HashToUInt64(Encoding.UTF8.GetBytes(key)));

    /// <summary>Takes keys away and puts others in.</summary>
    public void Change(LiteDatabase database, KeyChange change, TallySheet tallies)
    {
        var collection = database.GetCollection(name);
        var tally = tallies[name];
        foreach (var key in change.Gone)
        {
            tally = collection.Delete(key)
                ? tally.Remove(CheckOf(key))
                : throw new InvalidDataException($"a key in '{name}' that should be there is missing");
        }

        foreach (var key in change.New)
        {
            tally = tally.Replace(null, CheckOf(key));
        }

        collection.Insert(change.New.Select(key => new BsonDocument { [Names.Id] = key }).ToList());
        tallies[name] = tally;
    }

    /// <summary>Reads keys between two borders, both left out.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="lower">What all keys stand after.</param>
    /// <param name="upper">What all keys stand before; null for no limit.</param>
    /// <param name="count">The most keys to read.</param>
    /// <param name="falling">Whether the last key comes first.</param>
    public List<string> Read(LiteDatabase database, string lower, string? upper, int count, bool falling)
    {
        // Asking for the ids alone makes the engine answer from its index, without a look at the documents.
        var all = database
            .GetCollection(name)
            .Query()
            .Where("$._id BETWEEN @0 AND @1", lower, upper is null ? BsonValue.MaxValue : new BsonValue(upper));
        var keys = (falling ? all.OrderByDescending("$._id") : all.OrderBy("$._id"))
            .Select("{ _id }")
            .Limit(count + 2)
            .ToList()
            .Select(bson => bson[Names.Id].AsString)
            .Where(key => key != lower && key != upper)
            .Take(count)
            .ToList();
        RequireOrder(keys, falling ? upper : lower, falling ? -1 : 1);
        return keys;
    }

    /// <summary>Reads through all keys and tallies them.</summary>
    /// <param name="read">Runs one short piece of reading.</param>
    public Tally ReadThrough(Func<Func<LiteDatabase, List<string>>, List<string>> read)
    {
        var (tally, last) = (default(Tally), "");
        for (var more = true; more; )
        {
            var from = last;
            var keys = read(database => Read(database, from, null, PageSize, falling: false));
            tally = keys.Aggregate(tally, (sum, key) => sum.Replace(null, CheckOf(key)));
            more = keys.Count == PageSize;
            last = more ? keys[^1] : last;
        }

        return tally;
    }

    private void RequireOrder(List<string> keys, string? from, int sign)
    {
        foreach (var key in keys)
        {
            if (from is not null && Math.Sign(string.CompareOrdinal(key, from)) != sign)
            {
                throw new InvalidDataException($"the keys in '{name}' are out of order");
            }

            from = key;
        }
    }
}

/// <summary>What a transaction changes among the keys.</summary>
internal sealed class KeyChange
{
    private readonly HashSet<string> gone = new(StringComparer.Ordinal);
    private readonly HashSet<string> added = new(StringComparer.Ordinal);

    /// <summary>Keys that lead nowhere any more.</summary>
    public IReadOnlyCollection<string> Gone => gone;

    /// <summary>Keys that were not there.</summary>
    public IReadOnlyCollection<string> New => added;

    /// <summary>Notes one document's keys. Each key ends in the id of its document, so that no two documents share one.</summary>
    public void Note(IReadOnlyCollection<string> before, IReadOnlyCollection<string> after)
    {
        gone.UnionWith(before.Except(after, StringComparer.Ordinal));
        added.UnionWith(after.Except(before, StringComparer.Ordinal));
    }
}
