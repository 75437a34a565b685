using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Exams: whole, with the sort keys of the lists they stand in.</summary>
internal sealed class ExamKind : DocumentKind<StoredExam>
{
    public static readonly ExamKind Instance = new();

    public override string Collection => Names.Exams;

    public override string IdOf(StoredExam document) => document.Id;

    public override void Refuse(StoredExam document)
    {
        base.Refuse(document);
        RequireKey(document.Status, "status");
        if (document.PatientId is { } patient)
        {
            RequireKey(patient, "patient number");
        }
    }

    public override void Describe(StoredExam document, DocumentBytes bytes) =>
        bytes
            .Add(document.Id)
            .Add(document.PatientId)
            .Add(document.OpenedAt.ToUnixTimeMilliseconds())
            .Add(document.Status)
            .Add(document.Instrument)
            .Add(document.Examiner)
            .Add(document.ChartLine)
            .Add(document.Body.Span);

    /// <summary>The exam's place in the list by one of the indexes.</summary>
    public static string PlaceIn(string index, StoredExam exam) =>
        SortKey.Of(FilterOf(index, exam), exam.OpenedAt.ToUnixTimeMilliseconds(), exam.Id);

    protected override void Fill(StoredExam document, BsonDocument bson)
    {
        bson[Names.Patient] = document.PatientId;
        bson[Names.OpenedAt] = document.OpenedAt.ToUnixTimeMilliseconds();
        bson[Names.Status] = document.Status;
        bson[Names.Instrument] = document.Instrument;
        bson[Names.Examiner] = document.Examiner;
        bson[Names.ChartLine] = document.ChartLine;
        bson[Names.Body] = document.Body.ToArray();
        foreach (var index in Names.ExamIndexes)
        {
            bson[index] = PlaceIn(index, document);
        }
    }

    protected override StoredExam Take(BsonDocument bson) =>
        new()
        {
            Id = bson[Names.Id].AsString,
            PatientId = bson[Names.Patient].AsString,
            OpenedAt = DateTimeOffset.FromUnixTimeMilliseconds(bson[Names.OpenedAt].AsInt64),
            Status = bson[Names.Status].AsString,
            Instrument = bson[Names.Instrument].AsString,
            Examiner = bson[Names.Examiner].AsString,
            ChartLine = bson[Names.ChartLine].AsString,
            Body = bson[Names.Body].AsBinary,
        };

    private static string FilterOf(string index, StoredExam exam) =>
        index switch
        {
            Names.ByPatient => exam.PatientId ?? "",
            Names.ByStatus => exam.Status,
            _ => "",
        };
}
