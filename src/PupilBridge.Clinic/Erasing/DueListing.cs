using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Erasing;

/// <summary>
/// Whose last visit lies long ago. Exams are gone through from the oldest on; one that is its patient's last is a visit after which nobody
/// came, so that the list is in order as it is found, a page at a time. Whoever was erased already is not in it.
/// </summary>
internal static class DueListing
{
    /// <summary>The most exams that one page looks at; a page that has looked at so many ends there, full or not.</summary>
    public const int MostLookedAt = 2000;

    private const int Piece = 250;

    /// <summary>One page.</summary>
    /// <param name="house">The house.</param>
    /// <param name="before">What the last visit lies before.</param>
    /// <param name="after">Where the page before ended; null for the first page.</param>
    /// <param name="limit">The most patients.</param>
    /// <exception cref="EntryProblemException">The limit or the place to go on from is none.</exception>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be read now.</exception>
    public static DueList Of(IClinicHouse house, DateTimeOffset before, string? after, int limit)
    {
        if (limit is < 1 or > ExamQuery.MaxLimit)
        {
            throw new EntryProblemException(ClinicText.Records.Get("Due.NoLimit", ExamQuery.MaxLimit, limit));
        }

        var visits = new LastVisits(house);
        List<DuePatient> due = [];
        for (var looked = 0; looked < MostLookedAt; )
        {
            var page = Read(house, before, after);
            for (var i = 0; i < page.Items.Count; i++)
            {
                if (visits.After(page.Items[i], before) is not { } one)
                {
                    continue;
                }

                due.Add(one);
                if (due.Count == limit)
                {
                    var isEnd = page.Next is null && i == page.Items.Count - 1;
                    return new DueList(due, isEnd ? null : ExamPlace.Of(page.Items[i]).ToString());
                }
            }

            if (page.Next is null)
            {
                return new DueList(due, null);
            }

            looked += page.Items.Count;
            after = page.Next;
        }

        return new DueList(due, after);
    }

    private static Page<StoredExam> Read(IClinicHouse house, DateTimeOffset before, string? after)
    {
        try
        {
            return house.ReadLog(log => log.ListOldestExams(before, after, Piece));
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(problem.Message, problem);
        }
    }

    /// <summary>The last visits of patients, each looked for once a page.</summary>
    private sealed class LastVisits(IClinicHouse house)
    {
        private readonly Dictionary<string, ExamSummary?> known = new(StringComparer.Ordinal);

        /// <summary>The patient of an exam after which they were not here again; null if they were, or if it is nobody's.</summary>
        public DuePatient? After(StoredExam exam, DateTimeOffset before)
        {
            if (exam.PatientId is not { } number || SealedNumbers.IsErased(new PatientId(number)))
            {
                return null;
            }

            if (!known.TryGetValue(number, out var last))
            {
                known[number] = last = LastOf(number);
            }

            return last is not null && last.OpenedAt < before && ExamDocuments.IdOf(new ExamId(last.Exam)) == exam.Id
                ? new DuePatient(PersonBehind.Surviving(house, new PatientId(number)).Value, last.OpenedAt, last.Exam)
                : null;
        }

        private ExamSummary? LastOf(string number)
        {
            string? after = null;
            do
            {
                var request = new ExamListRequest
                {
                    Patient = number,
                    Limit = 1,
                    After = after,
                };
                var page = ExamListing.Of(house, request);
                if (page.Exams is [var latest, ..])
                {
                    return latest;
                }

                // A page may be empty though more follow: what stood there is somebody else's by now.
                after = page.Next;
            } while (after is not null);

            return null;
        }
    }
}
