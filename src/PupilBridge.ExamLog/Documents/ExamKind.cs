using LiteDB;
using PupilBridge.Exams.Values;

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

        if (document.Examiner is { } examiner)
        {
            RequireKey(examiner, "examiner");
        }

        RequireFindings(document.Findings);
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
            .Add(string.Join('\n', document.Findings))
            .Add((long)document.Review)
            .Add(document.Body.Span);

    /// <inheritdoc/>
    public override IReadOnlyCollection<string> KeysOf(StoredExam document) =>
        [.. document.Findings.Select(word => KeyIn(ListOf(word), document)), .. ReviewKeys(document)];

    /// <summary>The list of the exams with a finding, as the first part of its keys.</summary>
    public static string ListOf(string finding) => $"finding {finding}";

    /// <summary>The list of the exams that wait for review at one turn, as the first part of its keys; the first turn stands first.</summary>
    public static string ListOf(ReviewTurn turn) => turn == ReviewTurn.First ? "review 1" : "review 2";

    /// <summary>The exam's place in the list by one of the indexes.</summary>
    public static string PlaceIn(string index, StoredExam exam) => KeyIn(FilterOf(index, exam), exam);

    /// <summary>The exam's place in a list.</summary>
    public static string KeyIn(string list, StoredExam exam) =>
        SortKey.Of(list, exam.OpenedAt.ToUnixTimeMilliseconds(), exam.Id);

    /// <summary>What a list filters by where an examiner is asked for.</summary>
    public static string FilterOfExaminer(string examiner) => Folded.Of(examiner);

    /// <summary>
    /// The fields that filters look at, read without the body and without a comparison with the check value: enough to pass an exam
    /// over, never to show it.
    /// </summary>
    public static StoredExam Glance(BsonDocument bson) => TakeFields(bson, default);

    /// <summary>What the engine is to read for a <see cref="Glance"/>; the body stands behind these in the document.</summary>
    public static readonly string GlanceFields =
        $"{{ {Names.Id}, {Names.Patient}, {Names.OpenedAt}, {Names.Status}, {Names.Instrument}, {Names.Examiner}, {Names.Findings}, {Names.Review} }}";

    /// <inheritdoc/>
    protected override void Fill(StoredExam document, BsonDocument bson)
    {
        bson[Names.Patient] = document.PatientId;
        bson[Names.OpenedAt] = document.OpenedAt.ToUnixTimeMilliseconds();
        bson[Names.Status] = document.Status;
        bson[Names.Instrument] = document.Instrument;
        bson[Names.Examiner] = document.Examiner;
        bson[Names.Findings] = string.Join('\n', document.Findings);
        bson[Names.Review] = (int)document.Review;
        bson[Names.ChartLine] = document.ChartLine;
        foreach (var index in Names.ExamIndexes)
        {
            bson[index] = PlaceIn(index, document);
        }

        bson[Names.Body] = document.Body.ToArray();
    }

    /// <inheritdoc/>
    protected override StoredExam Take(BsonDocument bson) =>
        TakeFields(bson, bson[Names.Body].AsBinary) with
        {
            ChartLine = bson[Names.ChartLine].AsString,
        };

    private static StoredExam TakeFields(BsonDocument bson, byte[]? body) =>
        new()
        {
            Id = bson[Names.Id].AsString,
            PatientId = bson[Names.Patient].AsString,
            OpenedAt = DateTimeOffset.FromUnixTimeMilliseconds(bson[Names.OpenedAt].AsInt64),
            Status = bson[Names.Status].AsString,
            Instrument = bson[Names.Instrument].AsString,
            Examiner = bson[Names.Examiner].AsString,
            Findings = [.. bson[Names.Findings].AsString.Split('\n', StringSplitOptions.RemoveEmptyEntries)],
            Review = (ReviewTurn)bson[Names.Review].AsInt32,
            Body = body,
        };

    private static IEnumerable<string> ReviewKeys(StoredExam exam) =>
        exam.Review == ReviewTurn.NotWaiting ? [] : [KeyIn(ListOf(exam.Review), exam)];

    private static string FilterOf(string index, StoredExam exam) =>
        index switch
        {
            Names.ByPatient => exam.PatientId ?? "",
            Names.ByStatus => exam.Status,
            Names.ByExaminer => FilterOfExaminer(exam.Examiner ?? ""),
            _ => "",
        };

    private static void RequireFindings(ValueList<string> findings)
    {
        for (var i = 0; i < findings.Count; i++)
        {
            RequireKey(findings[i], "finding");
            if (i > 0 && string.CompareOrdinal(findings[i - 1], findings[i]) >= 0)
            {
                throw new ArgumentException(
                    $"The findings must stand in the order of their characters, each once: '{findings[i]}' does not."
                );
            }
        }
    }
}
