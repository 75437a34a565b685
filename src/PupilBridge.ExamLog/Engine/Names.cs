namespace PupilBridge.ExamLog;

/// <summary>The names of the collections and fields in the data file.</summary>
internal static class Names
{
    public const string Exams = "exams";
    public const string Patients = "patients";
    public const string Instruments = "instruments";
    public const string LookUps = "lookups";
    public const string Position = "position";

    /// <summary>Keys that lead to exams which stand in lists that not every exam stands in.</summary>
    public const string ExamKeys = "examkeys";

    /// <summary>Keys that lead to patients by the words that they are searched by.</summary>
    public const string PatientKeys = "patientkeys";

    /// <summary>Signed versions on their way to other systems.</summary>
    public const string Outbox = "outbox";

    /// <summary>Keys that lead to signed versions by how far they are.</summary>
    public const string OutboxKeys = "outboxkeys";

    /// <summary>The collections that hold documents and keys, in the order in which their tallies are written.</summary>
    public static readonly string[] Collections =
    [
        Exams,
        Patients,
        Instruments,
        LookUps,
        ExamKeys,
        PatientKeys,
        Outbox,
        OutboxKeys,
    ];

    /// <summary>Sort keys of exams: what a list filters by, then the time of opening, then the id.</summary>
    public const string ByOpening = "byOpening";
    public const string ByPatient = "byPatient";
    public const string ByStatus = "byStatus";
    public const string ByExaminer = "byExaminer";

    /// <summary>The secondary indexes of the exams; few, since each one costs every write.</summary>
    public static readonly string[] ExamIndexes = [ByOpening, ByPatient, ByStatus, ByExaminer];

    public const string Id = "_id";
    public const string Patient = "patient";
    public const string OpenedAt = "openedAtMs";
    public const string Status = "status";
    public const string Instrument = "instrument";
    public const string Examiner = "examiner";
    public const string ChartLine = "chart";
    public const string Findings = "findings";
    public const string Review = "review";
    public const string Name = "name";
    public const string List = "list";
    public const string Key = "key";
    public const string Text = "text";
    public const string Sequence = "sequence";
    public const string Body = "body";

    /// <summary>The document's own check value.</summary>
    public const string Check = "check";
}
