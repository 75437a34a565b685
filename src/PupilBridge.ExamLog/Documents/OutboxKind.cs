using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Signed versions on their way to other systems, found by how far they are, in the order of their signatures.</summary>
internal sealed class OutboxKind : DocumentKind<StoredOutboxItem>
{
    public static readonly OutboxKind Instance = new();

    public override string Collection => Names.Outbox;

    public override string IdOf(StoredOutboxItem document) => document.Id;

    public override void Describe(StoredOutboxItem document, DocumentBytes bytes) =>
        bytes.Add(document.Id).Add((long)document.List).Add(document.Sequence).Add(document.Body.Span);

    public override IReadOnlyCollection<string> KeysOf(StoredOutboxItem document) =>
        [SortKey.Of(NameOf(document.List), document.Sequence, document.Id)];

    /// <summary>The list as the first part of its keys.</summary>
    public static string NameOf(OutboxList list) => $"outbox {(int)list}";

    protected override void Fill(StoredOutboxItem document, BsonDocument bson)
    {
        bson[Names.List] = (int)document.List;
        bson[Names.Sequence] = document.Sequence;
        bson[Names.Body] = document.Body.ToArray();
    }

    protected override StoredOutboxItem Take(BsonDocument bson) =>
        new()
        {
            Id = bson[Names.Id].AsString,
            List = (OutboxList)bson[Names.List].AsInt32,
            Sequence = bson[Names.Sequence].AsInt64,
            Body = bson[Names.Body].AsBinary,
        };
}
