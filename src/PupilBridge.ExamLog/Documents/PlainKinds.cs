using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Patients, found by their number.</summary>
internal sealed class PatientKind : DocumentKind<StoredPatient>
{
    public static readonly PatientKind Instance = new();

    public override string Collection => Names.Patients;

    public override string IdOf(StoredPatient document) => document.Id;

    public override void Describe(StoredPatient document, DocumentBytes bytes) =>
        bytes.Add(document.Id).Add(document.Name).Add(document.Body.Span);

    public override IReadOnlyCollection<string> KeysOf(StoredPatient document) =>
        [.. WordsOf(document).Select(word => SortKey.OfWord(word, document.Id))];

    /// <summary>The folded words by which a patient is found: those of the number and those of the name.</summary>
    public static IReadOnlyCollection<string> WordsOf(StoredPatient patient) =>
        [
            .. Folded
                .WordsOf(patient.Id)
                .Union(Folded.WordsOf(patient.Name), StringComparer.Ordinal)
                .Order(StringComparer.Ordinal),
        ];

    protected override void Fill(StoredPatient document, BsonDocument bson)
    {
        bson[Names.Name] = document.Name;
        bson[Names.Body] = document.Body.ToArray();
    }

    protected override StoredPatient Take(BsonDocument bson) =>
        new()
        {
            Id = bson[Names.Id].AsString,
            Name = bson[Names.Name].AsString,
            Body = bson[Names.Body].AsBinary,
        };
}

/// <summary>Instruments, found by their serial number.</summary>
internal sealed class InstrumentKind : DocumentKind<StoredInstrument>
{
    public static readonly InstrumentKind Instance = new();

    public override string Collection => Names.Instruments;

    public override string IdOf(StoredInstrument document) => document.Id;

    public override void Describe(StoredInstrument document, DocumentBytes bytes) =>
        bytes.Add(document.Id).Add(document.Body.Span);

    protected override void Fill(StoredInstrument document, BsonDocument bson) =>
        bson[Names.Body] = document.Body.ToArray();

    protected override StoredInstrument Take(BsonDocument bson) =>
        new() { Id = bson[Names.Id].AsString, Body = bson[Names.Body].AsBinary };
}

/// <summary>Lines of look-up lists, found by list and key.</summary>
internal sealed class LookUpKind : DocumentKind<StoredLookUp>
{
    public static readonly LookUpKind Instance = new();

    public override string Collection => Names.LookUps;

    public override string IdOf(StoredLookUp document) => PlaceOf(document.List, document.Key);

    public override void Refuse(StoredLookUp document)
    {
        RequireKey(document.List, "name of the list");
        RequireKey(document.Key, "key");
    }

    public override void Describe(StoredLookUp document, DocumentBytes bytes) =>
        bytes.Add(document.List).Add(document.Key).Add(document.Text);

    /// <summary>The id of a line; all lines of a list stand together.</summary>
    public static string PlaceOf(string list, string key) => $"{list}\n{key}";

    protected override void Fill(StoredLookUp document, BsonDocument bson)
    {
        bson[Names.List] = document.List;
        bson[Names.Key] = document.Key;
        bson[Names.Text] = document.Text;
    }

    protected override StoredLookUp Take(BsonDocument bson) =>
        new()
        {
            List = bson[Names.List].AsString,
            Key = bson[Names.Key].AsString,
            Text = bson[Names.Text].AsString,
        };
}
