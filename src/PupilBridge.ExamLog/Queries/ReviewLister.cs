namespace PupilBridge.ExamLog;

/// <summary>Lists the exams that wait for review, first turns first and the oldest first among each: one range of the exams' keys.</summary>
internal static class ReviewLister
{
    private const char Divider = ':';

    /// <summary>Reads one page.</summary>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    public static Page<StoredExam> List(DocumentFile file, DocumentShelf<StoredExam> exams, string? after, int limit)
    {
        ExamLister.RequireLimit(limit);
        var lower = after is null ? SortKey.Edge(ExamKind.ListOf(ReviewTurn.First), long.MinValue) : KeyOf(after);
        var upper = SortKey.End(ExamKind.ListOf(ReviewTurn.Waiting));
        var found = SteadyReading.Read(
            file,
            "listing exams to review",
            database =>
            {
                var keys = exams.Keys!.Read(database, lower, upper, limit + 1, falling: false);
                var read = exams.FindMany(database, keys.ConvertAll(SortKey.IdIn));
                return KeySource.Belong(read, keys) ? read : null;
            }
        );
        return found.Count <= limit
            ? new Page<StoredExam>(found, null)
            : new Page<StoredExam>(found[..limit], PlaceOf(found[limit - 1]));
    }

    private static string PlaceOf(StoredExam exam) => $"{(int)exam.Review}{Divider}{ExamPlace.Of(exam)}";

    private static string KeyOf(string place)
    {
        var turn = place.Length > 2 && place[1] == Divider ? (ReviewTurn)(place[0] - '0') : ReviewTurn.NotWaiting;
        if (turn is not (ReviewTurn.Waiting or ReviewTurn.First))
        {
            throw new ArgumentException(
                $"'{place}' is no place in the list of exams to review; leave it out to start with the first."
            );
        }

        var at = ExamPlace.Parse(place[2..]);
        return SortKey.Of(ExamKind.ListOf(turn), at.OpenedAtMs, at.Id);
    }
}
