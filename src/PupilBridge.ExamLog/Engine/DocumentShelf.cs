using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>The documents of one kind in the data file: written many at once, read by key, a page at a time.</summary>
/// <typeparam name="T">The document.</typeparam>
internal sealed class DocumentShelf<T>(DocumentKind<T> kind)
    where T : class
{
    /// <summary>How many documents one look through all of them holds in memory.</summary>
    private const int PageSize = 200;

    /// <summary>Puts documents in, each in the place of the one with the same id.</summary>
    /// <returns>The tally as it is afterwards.</returns>
    public Tally Put(LiteDatabase database, IReadOnlyCollection<T> documents, Tally tally)
    {
        if (documents.Count == 0)
        {
            return tally;
        }

        var collection = Collection(database);
        var laidDown = documents.Select(kind.ToBson).ToList();
        foreach (var bson in laidDown)
        {
            var before = collection.FindById(bson[Names.Id]);
            tally = tally.Replace(before?[Names.Check].AsInt64, bson[Names.Check].AsInt64);
        }

        collection.Upsert(laidDown);
        return tally;
    }

    /// <summary>Finds a document by its id.</summary>
    public T? Find(LiteDatabase database, string id)
    {
        var bson = Collection(database).FindById(id);
        if (bson is null)
        {
            return null;
        }

        var document = kind.FromBson(bson);
        return kind.IdOf(document) == id
            ? document
            : throw new InvalidDataException(
                $"looking for '{id}' in '{kind.Collection}' gives '{kind.IdOf(document)}'"
            );
    }

    /// <summary>The documents with an id from one to another, in the order of ids.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="from">The lowest id, itself left out.</param>
    /// <param name="to">The highest id, itself left out; null for no limit.</param>
    /// <param name="limit">The most documents to read.</param>
    public List<T> Range(LiteDatabase database, string from, string? to, int limit)
    {
        // One range of one index and nothing to filter: the engine then stops after the last document asked for. The lowest id
        // of the range may be there and is dropped, so one more is asked for.
        var upper = to is null ? BsonValue.MaxValue : new BsonValue(to);
        var page = Collection(database)
            .Query()
            .Where("$._id BETWEEN @0 AND @1", from, upper)
            .OrderBy("$._id")
            .Limit(limit + 2)
            .ToList()
            .Select(kind.FromBson)
            .Where(document => kind.IdOf(document) != from && kind.IdOf(document) != to)
            .Take(limit)
            .ToList();
        RequireRising(page, from);
        return page;
    }

    /// <summary>Reads through all documents in the order of ids.</summary>
    /// <param name="read">Runs one short piece of reading.</param>
    /// <param name="take">Takes each document.</param>
    public void ReadThrough(Func<Func<LiteDatabase, List<T>>, List<T>> read, Action<T> take)
    {
        var last = "";
        for (var more = true; more; )
        {
            var from = last;
            var page = read(database => Range(database, from, null, PageSize));
            page.ForEach(take);
            more = page.Count == PageSize;
            last = more ? kind.IdOf(page[^1]) : last;
        }
    }

    private void RequireRising(List<T> page, string from)
    {
        foreach (var document in page)
        {
            var id = kind.IdOf(document);
            if (string.CompareOrdinal(id, from) <= 0)
            {
                throw new InvalidDataException($"the ids in '{kind.Collection}' are out of order at '{id}'");
            }

            from = id;
        }
    }

    private ILiteCollection<BsonDocument> Collection(LiteDatabase database) =>
        database.GetCollection(kind.Collection, BsonAutoId.ObjectId);
}
