namespace PupilBridge.ExamLog;

/// <summary>Chooses where a list is read from, and says what else its exams must fulfil.</summary>
internal static class ExamSources
{
    /// <summary>How far into each source one looks to find the sparsest.</summary>
    private const int LookInto = 300;

    /// <summary>Chooses the source that leaves the fewest exams to pass over.</summary>
    /// <returns>The source, and whether everything in it belongs to the list.</returns>
    public static (ExamSource Source, bool IsAll) Choose(
        DocumentFile file,
        DocumentShelf<StoredExam> exams,
        ExamQuery query,
        ExamPlace? below
    )
    {
        var sources = Of(exams, query);
        if (sources.Count == 1)
        {
            return (sources[0], true);
        }

        // A patient has few exams: no need to look.
        return query.PatientIds.Count > 0
            ? (sources[0], false)
            : (file.Read("choosing an index", database => Sparsest(database, sources, below)), false);
    }

    /// <summary>Whether an exam belongs to the list; the times are the source's matter.</summary>
    public static bool Fits(ExamQuery query, StoredExam exam) =>
        (query.PatientIds.Count == 0 || (exam.PatientId is { } patient && query.PatientIds.Contains(patient)))
        && (
            query.Examiner is not { } examiner
            || ExamKind.FilterOfExaminer(exam.Examiner ?? "") == ExamKind.FilterOfExaminer(examiner)
        )
        && (query.Statuses.Count == 0 || query.Statuses.Contains(exam.Status))
        && (query.Finding is null || exam.Findings.Contains(query.Finding));

    private static List<ExamSource> Of(DocumentShelf<StoredExam> exams, ExamQuery query)
    {
        var within = OpenedWithin.Of(query);
        var sources = new List<ExamSource>();
        if (query.PatientIds.Count > 0)
        {
            sources.Add(new IndexSource(Names.ByPatient, [.. query.PatientIds.Distinct()], within));
        }

        if (query.Finding is { } finding)
        {
            sources.Add(new KeySource(exams, ExamKind.ListOf(finding), within));
        }

        if (query.Examiner is { } examiner)
        {
            sources.Add(new IndexSource(Names.ByExaminer, [ExamKind.FilterOfExaminer(examiner)], within));
        }

        if (query.Statuses.Count > 0)
        {
            sources.Add(new IndexSource(Names.ByStatus, [.. query.Statuses.Distinct()], within));
        }

        return sources.Count > 0 ? sources : [new IndexSource(Names.ByOpening, [""], within)];
    }

    /// <summary>
    /// The source whose exams lie farthest apart: of two that end, the one with fewer; else the one in which as many exams reach
    /// farther back.
    /// </summary>
    private static ExamSource Sparsest(LiteDB.LiteDatabase database, List<ExamSource> sources, ExamPlace? below) =>
        sources
            .Select(source => (Source: source, Places: source.Places(database, below, LookInto)))
            .OrderByDescending(one => one.Places.Count < LookInto)
            .ThenBy(one => one.Places.Count)
            .ThenBy(one => one.Places.Count == 0 ? default : one.Places[^1])
            .First()
            .Source;
}
