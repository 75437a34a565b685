namespace PupilBridge.ExamLog;

/// <summary>
/// Lists exams by ranges of one index. A list by one thing costs no more than the exams it shows, however long it is; a list by several
/// reads the sparsest of them and passes over what does not fit, up to a bound.
/// </summary>
internal static class ExamLister
{
    /// <summary>The most exams that one page looks at; a page that has looked at so many ends there, full or not.</summary>
    public const int MostRead = 2000;

    private const int PieceSize = 250;

    /// <summary>Reads one page.</summary>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    public static Page<StoredExam> List(DocumentFile file, DocumentShelf<StoredExam> exams, ExamQuery query)
    {
        RequireLimit(query.Limit);
        ExamPlace? below = query.After is { } after ? ExamPlace.Parse(after) : null;
        var (source, isAll) = ExamSources.Choose(file, exams, query, below);
        return isAll ? Straight(file, source, below, query.Limit) : Filtered(file, exams, source, below, query);
    }

    /// <summary>Refuses a page of no or too many exams.</summary>
    /// <exception cref="ArgumentException">It is one.</exception>
    public static void RequireLimit(int limit)
    {
        if (limit is < 1 or > ExamQuery.MaxLimit)
        {
            throw new ArgumentException($"A page holds 1 to {ExamQuery.MaxLimit} exams, not {limit}.", nameof(limit));
        }
    }

    private static Page<StoredExam> Straight(DocumentFile file, ExamSource source, ExamPlace? below, int limit)
    {
        var found = SteadyReading.Read(
            file,
            "listing exams",
            database => source.Read(database, below, limit + 1, whole: true)
        );
        return found.Count <= limit
            ? new Page<StoredExam>(found, null)
            : new Page<StoredExam>(found[..limit], ExamPlace.Of(found[limit - 1]).ToString());
    }

    private static Page<StoredExam> Filtered(
        DocumentFile file,
        DocumentShelf<StoredExam> exams,
        ExamSource source,
        ExamPlace? below,
        ExamQuery query
    )
    {
        var found = new List<StoredExam>(query.Limit);
        for (var read = 0; read < MostRead; )
        {
            var from = below;
            var piece = SteadyReading.Read(
                file,
                "listing exams",
                database => source.Read(database, from, PieceSize, whole: false)
            );
            foreach (var glance in piece)
            {
                below = ExamPlace.Of(glance);
                // It is looked at once more when it is whole: it may have changed since.
                if (
                    ExamSources.Fits(query, glance)
                    && file.Read("reading an exam", database => exams.Find(database, glance.Id)) is { } whole
                    && ExamSources.Fits(query, whole)
                )
                {
                    found.Add(whole);
                }

                if (found.Count == query.Limit)
                {
                    return new Page<StoredExam>(found, below.ToString());
                }
            }

            read += piece.Count;
            if (piece.Count < PieceSize)
            {
                return new Page<StoredExam>(found, null);
            }
        }

        return new Page<StoredExam>(found, below.ToString());
    }
}
