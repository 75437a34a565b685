namespace PupilBridge.ExamLog;

/// <content>What can be asked.</content>
public sealed partial class ExamLogStore
{
    /// <summary>Finds an exam by its id.</summary>
    /// <exception cref="ExamLogBrokenException">It cannot be read.</exception>
    public StoredExam? FindExam(string id) => file.Read("finding an exam", database => Exams.Find(database, id));

    /// <summary>Lists exams, the latest opened first.</summary>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public Page<StoredExam> ListExams(ExamQuery query)
    {
        ArgumentNullException.ThrowIfNull(query);
        return ExamLister.List(file, Exams, query);
    }

    /// <summary>Lists the exams that opened before a time, the oldest first.</summary>
    /// <param name="openedBefore">The time.</param>
    /// <param name="after">Where the page before ended, as it said in <see cref="Page{T}.Next"/>; null for the first page.</param>
    /// <param name="limit">The most exams on the page, 1 to <see cref="ExamQuery.MaxLimit"/>.</param>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public Page<StoredExam> ListOldestExams(DateTimeOffset openedBefore, string? after = null, int limit = 50) =>
        OldestLister.List(file, openedBefore, after, limit);

    /// <summary>
    /// Lists the exams that wait for review: those whose turn is first before the others, and among each the oldest first.
    /// </summary>
    /// <param name="after">Where the page before ended, as it said in <see cref="Page{T}.Next"/>; null for the first page.</param>
    /// <param name="limit">The most exams on the page, 1 to <see cref="ExamQuery.MaxLimit"/>.</param>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public Page<StoredExam> ListForReview(string? after = null, int limit = 50) =>
        ReviewLister.List(file, Exams, after, limit);

    /// <summary>Lists signed versions on their way to other systems, in the order of their signatures.</summary>
    /// <param name="list">How far they are.</param>
    /// <param name="after">Where the page before ended, as it said in <see cref="Page{T}.Next"/>; null for the first page.</param>
    /// <param name="limit">The most on the page, 1 to <see cref="ExamQuery.MaxLimit"/>.</param>
    /// <exception cref="ArgumentException">The limit or the place to go on from is not one.</exception>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public Page<StoredOutboxItem> ListOutbox(OutboxList list, string? after = null, int limit = 50) =>
        OutboxLister.List(file, Outbox, list, after, limit);

    /// <summary>Finds a patient by their number.</summary>
    /// <exception cref="ExamLogBrokenException">It cannot be read.</exception>
    public StoredPatient? FindPatient(string id) =>
        file.Read("finding a patient", database => Patients.Find(database, id));

    /// <summary>Lists patients by number.</summary>
    /// <param name="after">The number after which to go on; null for the first page.</param>
    /// <param name="limit">The most patients on the page, 1 to <see cref="ExamQuery.MaxLimit"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is not one.</exception>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public Page<StoredPatient> ListPatients(string? after = null, int limit = 50)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(limit, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(limit, ExamQuery.MaxLimit);
        var found = file.Read("listing patients", db => Patients.Range(db, after ?? "", null, limit + 1));
        return found.Count <= limit
            ? new Page<StoredPatient>(found, null)
            : new Page<StoredPatient>(found[..limit], found[limit - 1].Id);
    }

    /// <summary>
    /// Finds patients by the beginnings of words of their number or name, upper and lower case alike: <c>q-10</c>, <c>dev jo</c>.
    /// A page may hold fewer than asked for and still not be the last one.
    /// </summary>
    /// <param name="text">The beginnings, in any order; all must fit. Without any, all patients are listed by number.</param>
    /// <param name="after">Where the page before ended, as it said in <see cref="Page{T}.Next"/>; null for the first page.</param>
    /// <param name="limit">The most patients on the page, 1 to <see cref="ExamQuery.MaxLimit"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is not one.</exception>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public Page<StoredPatient> SearchPatients(string text, string? after = null, int limit = 50)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentOutOfRangeException.ThrowIfLessThan(limit, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(limit, ExamQuery.MaxLimit);
        var words = Folded.WordsOf(text);
        return words.Count == 0
            ? ListPatients(after, limit)
            : PatientSearch.List(file, Patients, new PatientSearch.Wanted(words, after, limit));
    }

    /// <summary>Lists the instruments seen so far, by serial number; a clinic has few.</summary>
    /// <exception cref="ExamLogBrokenException">They cannot be read.</exception>
    public IReadOnlyList<StoredInstrument> ListInstruments() =>
        file.Read("listing instruments", database => Instruments.Range(database, "", null, ExamQuery.MaxLimit));

    /// <summary>Reads one look-up list whole, by key; such lists are short.</summary>
    /// <param name="list">Which list.</param>
    /// <exception cref="ExamLogBrokenException">It cannot be read.</exception>
    public IReadOnlyList<StoredLookUp> ListLookUps(string list)
    {
        var all = new List<StoredLookUp>();
        for (var more = true; more; )
        {
            var from = LookUpKind.PlaceOf(list, all.Count == 0 ? "" : all[^1].Key);
            var page = file.Read(
                "reading a look-up list",
                database => LookUps.Range(database, from, LookUpKind.PlaceOf(list, "\uffff"), ExamQuery.MaxLimit)
            );
            all.AddRange(page);
            more = page.Count == ExamQuery.MaxLimit;
        }

        return all;
    }

    /// <summary>The lines of a look-up list whose keys begin alike, the last ones first.</summary>
    /// <param name="list">Which list.</param>
    /// <param name="beginning">What the keys begin with; empty for all.</param>
    /// <param name="before">Only keys before this one; null for all.</param>
    /// <param name="limit">The most lines, 1 to <see cref="ExamQuery.MaxLimit"/>.</param>
    /// <exception cref="ExamLogBrokenException">It cannot be read.</exception>
    public IReadOnlyList<StoredLookUp> ListLookUpsBackwards(string list, string beginning, string? before, int limit)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(limit, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(limit, ExamQuery.MaxLimit);
        var to = LookUpKind.PlaceOf(list, before ?? beginning + "\uffff");
        return file.Read(
            "reading a look-up list backwards",
            database => LookUps.Backwards(database, LookUpKind.PlaceOf(list, beginning), to, limit)
        );
    }

    /// <summary>Finds one line of a look-up list.</summary>
    /// <param name="list">Which list.</param>
    /// <param name="key">The line's key.</param>
    /// <returns>Null if there is none.</returns>
    /// <exception cref="ExamLogBrokenException">It cannot be read.</exception>
    public StoredLookUp? FindLookUp(string list, string key) =>
        file.Read(
            "finding a line of a look-up list",
            database => LookUps.Find(database, LookUpKind.PlaceOf(list, key))
        );
}
