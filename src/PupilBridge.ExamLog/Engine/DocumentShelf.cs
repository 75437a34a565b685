using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>The documents of one kind in the data file: written many at once, read by key, a page at a time.</summary>
/// <typeparam name="T">The document.</typeparam>
/// <param name="kind">How the documents are laid down.</param>
/// <param name="keys">The keys that lead to them besides their ids; null if there are none.</param>
internal sealed class DocumentShelf<T>(DocumentKind<T> kind, KeyShelf? keys = null)
    where T : class
{
    /// <summary>How many documents one look through all of them holds in memory.</summary>
    private const int PageSize = 200;

    /// <summary>How the documents are laid down.</summary>
    public DocumentKind<T> Kind => kind;

    /// <summary>The keys that lead to them besides their ids; null if there are none.</summary>
    public KeyShelf? Keys => keys;

    /// <summary>Puts documents in, each in the place of the one with the same id, and the keys that lead to them.</summary>
    /// <param name="database">The engine, within a transaction.</param>
    /// <param name="documents">The documents.</param>
    /// <param name="tallies">What the collections hold; changed to what they hold afterwards.</param>
    public void Put(LiteDatabase database, IReadOnlyCollection<T> documents, TallySheet tallies)
    {
        if (documents.Count == 0)
        {
            return;
        }

        var collection = Collection(database);
        var laidDown = new List<BsonDocument>(documents.Count);
        var change = new KeyChange();
        var tally = tallies[kind.Collection];
        foreach (var document in documents)
        {
            var bson = kind.ToBson(document);
            var before = collection.FindById(bson[Names.Id]);
            tally = tally.Replace(before?[Names.Check].AsInt64, bson[Names.Check].AsInt64);
            laidDown.Add(bson);
            if (keys is not null)
            {
                change.Note(before is null ? [] : kind.KeysOf(kind.FromBson(before)), kind.KeysOf(document));
            }
        }

        collection.Upsert(laidDown);
        tallies[kind.Collection] = tally;
        keys?.Change(database, change, tallies);
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

    /// <summary>Finds documents by their ids, in the order of these; one that is not there is left out.</summary>
    public List<T> FindMany(LiteDatabase database, List<string> ids) =>
        [.. ids.Select(id => Find(database, id)).OfType<T>()];

    /// <summary>Finds documents as <see cref="FindMany(LiteDatabase, List{string})"/> does, and reads only some fields of each.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="ids">The ids.</param>
    /// <param name="fields">The fields, as the engine writes them; the id is one of them.</param>
    /// <param name="take">Makes a document of these fields.</param>
    public List<T> FindMany(LiteDatabase database, List<string> ids, string fields, Func<BsonDocument, T> take)
    {
        var found = Collection(database)
            .Query()
            .Where("$._id IN @0", new BsonArray(ids.Select(id => new BsonValue(id))))
            .Select(BsonExpression.Create(fields))
            .ToList()
            .ToDictionary(bson => bson[Names.Id].AsString, take, StringComparer.Ordinal);
        return [.. ids.Where(found.ContainsKey).Select(id => found[id])];
    }

    /// <summary>The documents with an id from one to another, in the order of ids.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="from">The lowest id, itself left out.</param>
    /// <param name="to">The highest id, itself left out; null for no limit.</param>
    /// <param name="limit">The most documents to read.</param>
    public List<T> Range(LiteDatabase database, string from, string? to, int limit)
    {
        var page = Between(database, from, to, limit, Query.Ascending);
        RequireRising(page, from);
        return page;
    }

    /// <summary>The documents with an id from one to another, the highest id first.</summary>
    /// <param name="database">The engine.</param>
    /// <param name="from">The lowest id, itself left out.</param>
    /// <param name="to">The highest id, itself left out.</param>
    /// <param name="limit">The most documents to read.</param>
    public List<T> Backwards(LiteDatabase database, string from, string to, int limit)
    {
        var page = Between(database, from, to, limit, Query.Descending);
        RequireRising([.. page.AsEnumerable().Reverse()], from);
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

    /// <summary>
    /// One range of one index and nothing to filter: the engine then stops after the last document asked for. The ids at both ends of the
    /// range may be there and are dropped, so two more are asked for.
    /// </summary>
    private List<T> Between(LiteDatabase database, string from, string? to, int limit, int order) =>
        [
            .. Collection(database)
                .Query()
                .Where("$._id BETWEEN @0 AND @1", from, to is null ? BsonValue.MaxValue : new BsonValue(to))
                .OrderBy("$._id", order)
                .Limit(limit + 2)
                .ToList()
                .Select(kind.FromBson)
                .Where(document => kind.IdOf(document) != from && kind.IdOf(document) != to)
                .Take(limit),
        ];

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
