using System.IO.Hashing;
using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>How one kind of document is laid down in the data file and read back.</summary>
/// <typeparam name="T">The document.</typeparam>
internal abstract class DocumentKind<T>
{
    /// <summary>The collection that holds the kind.</summary>
    public abstract string Collection { get; }

    /// <summary>The document's key within its collection.</summary>
    public abstract string IdOf(T document);

    /// <summary>Refuses a document that could not be found again.</summary>
    /// <exception cref="ArgumentException">A key is empty, too long or holds a control character.</exception>
    public virtual void Refuse(T document) => RequireKey(IdOf(document), "id");

    /// <summary>All that the document holds, in our own fixed order.</summary>
    public abstract void Describe(T document, DocumentBytes bytes);

    /// <summary>The keys that lead to a document in a <see cref="KeyShelf"/>, each once; none for most kinds.</summary>
    public virtual IReadOnlyCollection<string> KeysOf(T document) => [];

    /// <summary>The engine's form, with the check value in it.</summary>
    public BsonDocument ToBson(T document)
    {
        var bson = new BsonDocument { [Names.Id] = IdOf(document) };
        Fill(document, bson);
        bson[Names.Check] = CheckOf(document);
        return bson;
    }

    /// <summary>
    /// Reads the engine's form back. The engine has no check sums of its own and serves a flipped bit as data, so each document
    /// carries one and it is compared on every read.
    /// </summary>
    /// <exception cref="InvalidDataException">What is read is not what was written.</exception>
    public T FromBson(BsonDocument bson)
    {
        var document = Take(bson);
        if (IdOf(document) != bson[Names.Id].AsString || CheckOf(document) != bson[Names.Check].AsInt64)
        {
            throw new InvalidDataException(
                $"the document {bson[Names.Id]} in '{Collection}' does not match its check value"
            );
        }

        return document;
    }

    /// <summary>The bytes that digests are made of.</summary>
    public ReadOnlySpan<byte> ContentOf(T document)
    {
        var bytes = new DocumentBytes().Add(Collection);
        Describe(document, bytes);
        return bytes.Written;
    }

    /// <summary>The document's check value: XxHash3 over its content.</summary>
    public long CheckOf(T document) => unchecked((long)XxHash3.HashToUInt64(ContentOf(document)));

    /// <summary>Puts everything but the id and the check value into the engine's form.</summary>
    protected abstract void Fill(T document, BsonDocument bson);

    /// <summary>Makes the document of the engine's form.</summary>
    protected abstract T Take(BsonDocument bson);

    /// <summary>Refuses a key that cannot be part of a sort key.</summary>
    protected static void RequireKey(string key, string what)
    {
        if (!SortKey.Allows(key))
        {
            throw new ArgumentException(
                $"The {what} '{key}' must have 1 to 128 characters, none of them a control character."
            );
        }
    }
}
