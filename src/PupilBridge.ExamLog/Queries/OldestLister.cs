namespace PupilBridge.ExamLog;

/// <summary>Lists exams of long ago, the oldest first: one range of one index, read forwards.</summary>
internal static class OldestLister
{
    /// <summary>Reads one page.</summary>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    public static Page<StoredExam> List(DocumentFile file, DateTimeOffset openedBefore, string? after, int limit)
    {
        ExamLister.RequireLimit(limit);
        ExamPlace? place = after is null ? null : ExamPlace.Parse(after);
        var lower = place is { } from ? SortKey.Of("", from.OpenedAtMs, from.Id) : SortKey.Edge("", long.MinValue);
        var upper = SortKey.Edge("", openedBefore.ToUnixTimeMilliseconds());
        if (string.CompareOrdinal(lower, upper) >= 0)
        {
            return new Page<StoredExam>([], null);
        }

        var found = file.Read("listing the oldest exams", database => Read(database, lower, upper, limit + 1));
        return found.Count <= limit
            ? new Page<StoredExam>(found, null)
            : new Page<StoredExam>(found[..limit], ExamPlace.Of(found[limit - 1]).ToString());
    }

    private static List<StoredExam> Read(LiteDB.LiteDatabase database, string lower, string upper, int count)
    {
        // The lower border may be there, as the last exam of the page before; it is dropped, so one more is asked for.
        var exams = database
            .GetCollection(Names.Exams)
            .Query()
            .Where($"$.{Names.ByOpening} BETWEEN @0 AND @1", lower, upper)
            .OrderBy($"$.{Names.ByOpening}")
            .Limit(count + 1)
            .ToList()
            .Select(ExamKind.Instance.FromBson)
            .Where(exam => ExamKind.PlaceIn(Names.ByOpening, exam) != lower)
            .Take(count)
            .ToList();
        RequireRising(exams, lower, upper);
        return exams;
    }

    private static void RequireRising(List<StoredExam> exams, string lower, string upper)
    {
        foreach (var exam in exams)
        {
            var place = ExamKind.PlaceIn(Names.ByOpening, exam);
            if (string.CompareOrdinal(place, lower) <= 0 || string.CompareOrdinal(place, upper) >= 0)
            {
                throw new InvalidDataException(
                    $"the index '{Names.ByOpening}' leads to exam '{exam.Id}', which does not belong there"
                );
            }

            lower = place;
        }
    }
}
