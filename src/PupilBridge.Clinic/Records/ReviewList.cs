using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Records;

/// <summary>
/// The exams that await review: those whose patient a clinician should see before drops first, then the oldest first. The exam log
/// knows those that may be urgent by themselves; which of them an earlier visit explains is looked up here, so that these join the
/// others in their place. Exams of which the log may be behind are looked up apart, whatever it says of them.
/// </summary>
internal static class ReviewList
{
    /// <summary>The most exams that may be urgent and are looked at; a clinic with more has another trouble.</summary>
    private const int MostUrgent = 2 * ExamQuery.MaxLimit;

    /// <summary>One page.</summary>
    /// <exception cref="EntryProblemException">The limit or the place to go on from is none.</exception>
    public static ExamPage Of(IClinicHouse house, string? after, int limit)
    {
        if (limit is < 1 or > ExamQuery.MaxLimit)
        {
            throw new EntryProblemException(ClinicText.Records.Get("Review.NoLimit", ExamQuery.MaxLimit, limit));
        }

        ReviewPlace? from = after is null ? null : ReviewPlace.Parse(after);
        var ahead = house.ExamsAheadOfLog();
        var (first, others) = ReadFirst(house, ahead);
        first.AddRange(Waiting(house, ahead));
        var urgent = first.Where(exam => exam.BeforeDrops.Count > 0).OrderBy(PlaceOf);
        var rest = first
            .Where(exam => exam.BeforeDrops.Count == 0)
            .Concat(ReadOthers(house, ahead, others, from, limit));
        var found = urgent
            .Concat(rest.OrderBy(PlaceOf))
            .Where(exam => from is not { } place || PlaceOf(exam).CompareTo(place) > 0)
            .DistinctBy(exam => exam.Summary.Exam)
            .Take(limit + 1)
            .ToList();
        return found.Count <= limit
            ? new ExamPage(found, null)
            : new ExamPage(found[..limit], PlaceOf(found[limit - 1]).ToString());
    }

    /// <summary>All that may be urgent, and where the log goes on with those that are not.</summary>
    private static (List<FoundExam> First, string? Others) ReadFirst(IClinicHouse house, IReadOnlySet<ExamId> ahead)
    {
        var first = new List<FoundExam>();
        string? place = null;
        while (first.Count < MostUrgent)
        {
            var page = Read(house, place, ExamQuery.MaxLimit);
            var turn = page.Items.TakeWhile(stored => stored.Review == ReviewTurn.First).ToList();
            first.AddRange(Shown(house, turn, ahead));
            if (turn.Count < page.Items.Count || page.Next is null)
            {
                return (first, EndOf(turn) ?? place);
            }

            place = page.Next;
        }

        return (first, place);
    }

    private static string? EndOf(List<StoredExam> turn) =>
        turn.Count == 0 ? null : new ReviewPlace(true, ExamPlace.Of(turn[^1])).ToString();

    /// <summary>As many of the others as the page may need, from where it begins.</summary>
    private static List<FoundExam> ReadOthers(
        IClinicHouse house,
        IReadOnlySet<ExamId> ahead,
        string? behindFirst,
        ReviewPlace? from,
        int limit
    )
    {
        var place = from is { IsUrgent: false } ? from.ToString() : behindFirst;
        var found = new List<FoundExam>();
        do
        {
            var page = Read(house, place, ExamQuery.MaxLimit);
            var turn = page.Items.Where(stored => stored.Review == ReviewTurn.Waiting);
            found.AddRange(Shown(house, turn, ahead).Take(limit + 1 - found.Count));
            place = page.Next;
        } while (place is not null && found.Count <= limit);

        return found;
    }

    private static IEnumerable<FoundExam> Shown(
        IClinicHouse house,
        IEnumerable<StoredExam> stored,
        IReadOnlySet<ExamId> ahead
    ) => Waiting(house, stored.Select(ExamDocuments.IdOf).Where(exam => !ahead.Contains(exam)));

    private static IEnumerable<FoundExam> Waiting(IClinicHouse house, IEnumerable<ExamId> exams) =>
        exams
            .Select(house.FindExam)
            .OfType<Exam>()
            .Where(ExamDocuments.AwaitsReview)
            .Select(exam => FoundExams.Of(house, exam));

    private static Page<StoredExam> Read(IClinicHouse house, string? place, int limit)
    {
        try
        {
            return house.ReadLog(log => log.ListForReview(place, limit));
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(problem.Message, problem);
        }
    }

    private static ReviewPlace PlaceOf(FoundExam exam) =>
        new(
            exam.BeforeDrops.Count > 0,
            ExamPlace.Of(exam.Summary.OpenedAt, ExamDocuments.IdOf(new ExamId(exam.Summary.Exam)))
        );
}
