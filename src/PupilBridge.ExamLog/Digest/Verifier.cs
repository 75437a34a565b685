using System.IO.Hashing;
using System.Text;
using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Reads a whole exam log and compares it with what was written.</summary>
internal sealed class Verifier
{
    private readonly DocumentFile file;
    private readonly ContentDigest.Sum sum = new();

    private Verifier(DocumentFile file) => this.file = file;

    /// <summary>Reads everything.</summary>
    /// <exception cref="ExamLogBrokenException">Something is not as it was written.</exception>
    public static ContentDigest Run(
        DocumentFile file,
        Position position,
        DocumentShelf<StoredExam> exams,
        DocumentShelf<StoredPatient> patients,
        DocumentShelf<StoredInstrument> instruments,
        DocumentShelf<StoredLookUp> lookUps
    )
    {
        var verifier = new Verifier(file);
        var places = Names.ExamIndexes.ToDictionary(index => index, _ => 0UL, StringComparer.Ordinal);
        var found = new[]
        {
            verifier.Read(
                exams,
                ExamKind.Instance,
                exam =>
                {
                    foreach (var index in Names.ExamIndexes)
                    {
                        places[index] = unchecked(places[index] + HashOf(ExamKind.PlaceIn(index, exam)));
                    }
                }
            ),
            verifier.Read(patients, PatientKind.Instance),
            verifier.Read(instruments, InstrumentKind.Instance),
            verifier.Read(lookUps, LookUpKind.Instance),
        };
        verifier.RequireTallies(found, position.Tallies);
        foreach (var (index, expected) in places)
        {
            verifier.RequireIndex(index, expected);
        }

        return verifier.sum.Result();
    }

    private Tally Read<T>(DocumentShelf<T> shelf, DocumentKind<T> kind, Action<T>? also = null)
        where T : class
    {
        var tally = default(Tally);
        shelf.ReadThrough(
            page => file.Read("reading all documents", page),
            document =>
            {
                tally = tally.Replace(null, kind.CheckOf(document));
                sum.Add(kind.ContentOf(document));
                also?.Invoke(document);
            }
        );
        return tally;
    }

    private void RequireTallies(Tally[] found, IReadOnlyList<Tally> written)
    {
        for (var i = 0; i < found.Length; i++)
        {
            var name = Names.Collections[i];
            if (found[i].Count != written[i].Count)
            {
                throw file.Break($"'{name}' holds {found[i].Count} documents where {written[i].Count} were written.");
            }

            if (found[i].Checks != written[i].Checks)
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
