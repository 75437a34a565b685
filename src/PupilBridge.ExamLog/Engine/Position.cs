using System.IO.Hashing;
using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>
/// How far the journal has been applied, and what the collections hold then: written in the same transaction as the documents.
/// </summary>
internal sealed record Position
{
    private const int OnlyId = 1;

    public required int Version { get; init; }

    public required long LastApplied { get; init; }

    /// <summary>What the one who applies must remember.</summary>
    public required ReadOnlyMemory<byte> Carry { get; init; }

    /// <summary>The tally of each collection, in the order of <see cref="Names.Collections"/>.</summary>
    public required IReadOnlyList<Tally> Tallies { get; init; }

    /// <summary>Where an empty exam log stands.</summary>
    public static Position Start(int version) =>
        new()
        {
            Version = version,
            LastApplied = 0,
            Carry = default,
            Tallies = new Tally[Names.Collections.Length],
        };

    /// <summary>Reads the position. Of another version than the one known only that version is believed.</summary>
    /// <returns>Null if there is none.</returns>
    /// <exception cref="InvalidDataException">It does not match its check value.</exception>
    public static Position? Read(LiteDatabase database, int knownVersion)
    {
        var bson = database.GetCollection(Names.Position).FindById(OnlyId);
        if (bson is null)
        {
            return null;
        }

        var position = new Position
        {
            Version = bson["version"].AsInt32,
            LastApplied = bson["lastApplied"].AsInt64,
            Carry = bson["carry"].AsBinary ?? [],
            Tallies = bson["counts"]
                .AsArray.Zip(bson["checks"].AsArray, (count, checks) => new Tally(count.AsInt64, checks.AsInt64))
                .ToList(),
        };
        return position.Version != knownVersion || position.CheckValue() == bson[Names.Check].AsInt64
            ? position
            : throw new InvalidDataException("the position in the journal does not match its check value");
    }

    /// <summary>Writes the position, inside whatever transaction is open.</summary>
    public void Write(LiteDatabase database) =>
        database
            .GetCollection(Names.Position)
            .Upsert(
                new BsonDocument
                {
                    [Names.Id] = OnlyId,
                    ["version"] = Version,
                    ["lastApplied"] = LastApplied,
                    ["carry"] = Carry.ToArray(),
                    ["counts"] = new BsonArray(Tallies.Select(tally => new BsonValue(tally.Count))),
                    ["checks"] = new BsonArray(Tallies.Select(tally => new BsonValue(tally.Checks))),
                    [Names.Check] = CheckValue(),
                }
            );

    private long CheckValue()
    {
        var bytes = new DocumentBytes().Add(Version).Add(LastApplied).Add(Carry.Span);
        foreach (var tally in Tallies)
        {
            bytes.Add(tally.Count).Add(tally.Checks);
        }

        return unchecked((long)XxHash3.HashToUInt64(bytes.Written));
    }
}
