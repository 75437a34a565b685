using System.IO.Hashing;
using System.Text;
using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Reads a whole exam log and compares it with what was written.</summary>
internal sealed class Verifier
{
    private readonly DocumentFile file;
    private readonly ContentDigest.Sum sum = new();
    private readonly TallySheet found = new(new Tally[Names.Collections.Length]);

    private Verifier(DocumentFile file) => this.file = file;

    /// <summary>Reads everything.</summary>
    /// <exception cref="ExamLogBrokenException">Something is not as it was written.</exception>
    public static ContentDigest Run(
        DocumentFile file,
        Position position,
        DocumentShelf<StoredExam> exams,
        DocumentShelf<StoredPatient> patients,
        DocumentShelf<StoredInstrument> instruments,
        DocumentShelf<StoredLookUp> lookUps,
        DocumentShelf<StoredOutboxItem> outbox
    )
    {
        var verifier = new Verifier(file);
        var places = Names.ExamIndexes.ToDictionary(index => index, _ => 0UL, StringComparer.Ordinal);
        verifier.Read(
            exams,
            exam =>
            {
                foreach (var index in Names.ExamIndexes)
                {
                    places[index] = unchecked(places[index] + HashOf(ExamKind.PlaceIn(index, exam)));
                }
            }
        );
        verifier.Read(patients);
        verifier.Read(instruments);
        verifier.Read(lookUps);
        verifier.Read(outbox);
        verifier.RequireTallies(position.Tallies);
        foreach (var (index, expected) in places)
        {
            verifier.RequireIndex(index, expected);
        }

        return verifier.sum.Result();
    }

    private void Read<T>(DocumentShelf<T> shelf, Action<T>? also = null)
        where T : class
    {
        var kind = shelf.Kind;
        var (tally, keys) = (default(Tally), default(Tally));
        shelf.ReadThrough(
            page => file.Read("reading all documents", page),
            document =>
            {
                tally = tally.Replace(null, kind.CheckOf(document));
                keys = kind.KeysOf(document).Aggregate(keys, (all, key) => all.Replace(null, KeyShelf.CheckOf(key)));
                sum.Add(kind.ContentOf(document));
                also?.Invoke(document);
            }
        );
        found[kind.Collection] = tally;
        if (shelf.Keys is { } shelfOfKeys)
        {
            found[shelfOfKeys.Name] = shelfOfKeys.ReadThrough(page => file.Read("reading all keys", page));
            if (found[shelfOfKeys.Name] != keys)
            {
                throw file.Break($"the keys in '{shelfOfKeys.Name}' do not agree with '{kind.Collection}'.");
            }
        }
    }

    private void RequireTallies(IReadOnlyList<Tally> written)
    {
        for (var i = 0; i < written.Count; i++)
        {
            var name = Names.Collections[i];
            if (found[name].Count != written[i].Count)
            {
                throw file.Break(
                    $"'{name}' holds {found[name].Count} documents where {written[i].Count} were written."
                );
            }

            if (found[name].Checks != written[i].Checks)
            {
                throw file.Break($"'{name}' holds a document as it was before its last change.");
            }
        }
    }

    private void RequireIndex(string index, ulong expected)
    {
        var found = 0UL;
        var last = "";
        for (var more = true; more; )
        {
            var from = last;
            var keys = file.Read("reading an index", database => KeysAfter(database, index, from));
            foreach (var key in keys)
            {
                found = unchecked(found + HashOf(key));
            }

            more = keys.Count > 0;
            last = more ? keys[^1] : last;
        }

        if (found != expected)
        {
            throw file.Break($"the index '{index}' does not agree with the exams.");
        }
    }

    private static List<string> KeysAfter(LiteDatabase database, string index, string from)
    {
        const int PageSize = 1000;
        var keys = database
            .GetCollection(Names.Exams)
            .Query()
            .Where($"$.{index} BETWEEN @0 AND @1", from, BsonValue.MaxValue)
            .OrderBy($"$.{index}")
            .Select($"{{ {index} }}")
            .Limit(PageSize)
            .ToList()
            .Select(bson => bson[index].AsString)
            .Where(key => key != from)
            .ToList();
        return keys.TrueForAll(key => string.CompareOrdinal(key, from) > 0)
            ? keys
            : throw new InvalidDataException($"the index '{index}' is out of order");
    }

    private static ulong HashOf(string key) => XxHash3.HashToUInt64(Encoding.UTF8.GetBytes(key));
}
