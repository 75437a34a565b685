using LiteDB;

namespace PupilBridge.ExamLog;

/// <summary>One or several ranges of one index of the exams; several are put in order as they are read.</summary>
/// <param name="index">The index.</param>
/// <param name="filters">What the index filters by: one for each range.</param>
/// <param name="within">The times of opening.</param>
internal sealed class IndexSource(string index, IReadOnlyCollection<string> filters, OpenedWithin within) : ExamSource
{
    /// <inheritdoc/>
    public override List<ExamPlace> Places(LiteDatabase database, ExamPlace? below, int count) =>
        Latest(
            filters.SelectMany(filter =>
                // Asking for the key alone makes the engine answer from its index.
                Range(database, filter, below, count, $"{{ {index} }}")
                    .Select(bson => bson[index].AsString)
                    .Where(key => key != within.Upper(filter, below))
                    .Select(SortKey.PlaceIn)
            ),
            place => place,
            count
        );

    /// <inheritdoc/>
    public override List<StoredExam>? Read(LiteDatabase database, ExamPlace? below, int count, bool whole) =>
        Latest(filters.SelectMany(filter => ReadRange(database, filter, below, count, whole)), ExamPlace.Of, count);

    private List<StoredExam> ReadRange(LiteDatabase database, string filter, ExamPlace? below, int count, bool whole)
    {
        var upper = within.Upper(filter, below);
        var exams = Range(database, filter, below, count, whole ? null : ExamKind.GlanceFields)
            .Select(bson => whole ? ExamKind.Instance.FromBson(bson) : ExamKind.Glance(bson))
            .Where(exam => ExamKind.PlaceIn(index, exam) != upper)
            .Take(count)
            .ToList();
        RequireFalling(exams, within.Lower(filter), upper);
        return exams;
    }

    private List<BsonDocument> Range(LiteDatabase database, string filter, ExamPlace? below, int count, string? fields)
    {
        // One range of one index and nothing to filter: the engine then stops after the last document asked for. The upper border
        // may be there and is dropped, so one more is asked for.
        var range = database
            .GetCollection(Names.Exams)
            .Query()
            .Where($"$.{index} BETWEEN @0 AND @1", within.Lower(filter), within.Upper(filter, below))
            .OrderByDescending($"$.{index}");
        return fields is null
            ? range.Limit(count + 1).ToList()
            : range.Select(BsonExpression.Create(fields)).Limit(count + 1).ToList();
    }

    private static List<T> Latest<T>(IEnumerable<T> found, Func<T, ExamPlace> placeOf, int count) =>
        found.OrderByDescending(placeOf).Take(count).ToList();

    private void RequireFalling(List<StoredExam> exams, string lower, string upper)
    {
        foreach (var exam in exams)
        {
            var place = ExamKind.PlaceIn(index, exam);
            if (string.CompareOrdinal(place, upper) >= 0 || string.CompareOrdinal(place, lower) < 0)
            {
                throw new InvalidDataException(
                    $"the index '{index}' leads to exam '{exam.Id}', which does not belong there"
                );
            }

            upper = place;
        }
    }
}
