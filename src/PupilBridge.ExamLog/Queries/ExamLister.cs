using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>Lists exams by one short range of one index: no page costs more than the exams it shows, however long the list.</summary>
internal static class ExamLister
{
    /// <summary>Reads one page.</summary>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    public static Page<StoredExam> List(DocumentFile file, ExamQuery query)
    {
        if (query.Limit is < 1 or > ExamQuery.MaxLimit)
        {
            throw new ArgumentException(
                $"A page holds 1 to {ExamQuery.MaxLimit} exams, not {query.Limit}.",
                nameof(query)
            );
        }

        var range = ExamRange.Of(query);
        var found = new List<StoredExam>(query.Limit + 1);
        while (found.Count <= query.Limit)
        {
            // A patient's list by status is the patient's list with some left out: a patient has few exams.
            var wanted = query.Limit + 1;
            var piece = file.Read("listing exams", database => Piece(database, range, wanted));
            found.AddRange(piece.Where(exam => query.Status is null || exam.Status == query.Status));
            if (piece.Count < wanted)
            {
                break;
            }

            range = range with { Upper = ExamKind.PlaceIn(range.Index, piece[^1]) };
        }

        return found.Count <= query.Limit
            ? new Page<StoredExam>(found, null)
            : new Page<StoredExam>(found[..query.Limit], PlaceOf(found[query.Limit - 1]).ToString());
    }

    private static ExamPlace PlaceOf(StoredExam exam) => ExamPlace.Of(exam.OpenedAt, exam.Id);

    /// <summary>The latest exams of a range, its upper border left out.</summary>
    private static List<StoredExam> Piece(LiteDatabase database, ExamRange range, int count)
    {
        var exams = database
            .GetCollection(Names.Exams)
            .Query()
            .Where($"$.{range.Index} BETWEEN @0 AND @1", range.Lower, range.Upper)
            .OrderByDescending($"$.{range.Index}")
            .Limit(count + 1)
            .ToList()
            .Select(ExamKind.Instance.FromBson)
            .Where(exam => ExamKind.PlaceIn(range.Index, exam) != range.Upper)
            .Take(count)
            .ToList();
        RequireFalling(exams, range);
        return exams;
    }

    private static void RequireFalling(List<StoredExam> exams, ExamRange range)
    {
        var above = range.Upper;
        foreach (var exam in exams)
        {
            var place = ExamKind.PlaceIn(range.Index, exam);
            if (string.CompareOrdinal(place, above) >= 0 || string.CompareOrdinal(place, range.Lower) < 0)
            {
                throw new InvalidDataException(
                    $"the index '{range.Index}' leads to exam '{exam.Id}', which does not belong there"
                );
            }

            above = place;
        }
    }

    /// <summary>A range of one index.</summary>
    private sealed record ExamRange(string Index, string Lower, string Upper)
    {
        public static ExamRange Of(ExamQuery query)
        {
            var (index, filter) = query switch
            {
                { PatientId: { } patient } => (Names.ByPatient, patient),
                { Status: { } status } => (Names.ByStatus, status),
                _ => (Names.ByOpening, ""),
            };
            var from = query.OpenedFrom?.ToUnixTimeMilliseconds() ?? long.MinValue;
            var upper = query.OpenedBefore is { } before
                ? SortKey.Edge(filter, before.ToUnixTimeMilliseconds())
                : SortKey.End(filter);
            if (query.After is { } after)
            {
                var (openedAtMs, id) = ExamPlace.Parse(after);
                var place = SortKey.Of(filter, openedAtMs, id);
                upper = string.CompareOrdinal(place, upper) < 0 ? place : upper;
            }

            return new ExamRange(index, SortKey.Edge(filter, from), upper);
        }
    }
}
