using System.Globalization;
using System.Text;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;

namespace PupilBridge.Worker.Projection;

/// <summary>Exams, patients and instruments as the exam log stores them.</summary>
public static class ExamDocuments
{
    /// <summary>The look-up list of the people seen so far.</summary>
    public const string PeopleList = "people";

    /// <summary>The look-up list of the days' lists: one line for each day, the day as its key.</summary>
    public const string DayLists = "day-lists";

    /// <summary>An exam's id in the exam log.</summary>
    /// <param name="id">The exam.</param>
    /// <returns>Its number in decimal.</returns>
    public static string IdOf(ExamId id) => id.Value.ToString(CultureInfo.InvariantCulture);

    /// <summary>The exam that an id in the exam log names.</summary>
    /// <param name="stored">The exam as it is stored.</param>
    public static ExamId IdOf(StoredExam stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return new(long.Parse(stored.Id, CultureInfo.InvariantCulture));
    }

    /// <summary>An exam's status in the word by which lists filter.</summary>
    /// <param name="status">The status.</param>
    /// <returns><c>open</c>, <c>ready-for-review</c>, <c>signed</c>, <c>amended</c> or <c>set-aside</c>.</returns>
    public static string WordOf(ExamStatus status) =>
        status switch
        {
            ExamStatus.Open => "open",
            ExamStatus.ReadyForReview => "ready-for-review",
            ExamStatus.Signed => "signed",
            ExamStatus.Amended => "amended",
            ExamStatus.SetAside => "set-aside",
            _ => throw new ArgumentOutOfRangeException(nameof(status), status, "There is no such status."),
        };

    /// <summary>An exam as the exam log stores it.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Its document.</returns>
    public static StoredExam Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var findings = ExamFindings.Of(exam);
        return new()
        {
            Id = IdOf(exam.Id),
            PatientId = exam.Patient?.Value,
            OpenedAt = exam.Opening.When.At.ToDateTimeOffset(),
            Status = WordOf(exam.Status),
            Instrument = exam.Serial.Value,
            Examiner = ExaminerOf(exam)?.Value,
            Findings = [.. findings.Concat(CriteriaMet.Of(exam)).Order(StringComparer.Ordinal)],
            Review = ReviewOf(exam, findings),
            ChartLine = SignedChart.Of(exam).Line,
            Body = ExamJson.Write(exam),
        };
    }

    /// <summary>A patient as the exam log stores it.</summary>
    /// <param name="patient">What was entered last.</param>
    /// <returns>Its document.</returns>
    public static StoredPatient Of(PatientEntered patient) =>
        new()
        {
            Id = patient.Patient.Value,
            Name = patient.Details?.Name ?? "",
            Body = ExamJson.WriteOther(patient),
        };

    internal static StoredInstrument Of(InstrumentMet met) =>
        new() { Id = met.Serial.Value, Body = ExamJson.WriteOther(met) };

    /// <summary>
    /// A day's list as the exam log stores it: whole in one line, so that a shorter list that is entered later leaves nothing of the
    /// longer one.
    /// </summary>
    /// <param name="list">What was entered last for the day.</param>
    /// <returns>Its line.</returns>
    public static StoredLookUp Of(DayListEntered list)
    {
        ArgumentNullException.ThrowIfNull(list);
        return new()
        {
            List = DayLists,
            Key = KeyOf(list.Date),
            Text = Encoding.UTF8.GetString(ExamJson.WriteOther(list)),
        };
    }

    /// <summary>The list of one day.</summary>
    /// <param name="log">The exam log.</param>
    /// <param name="day">The day, by the clinic's own calendar.</param>
    /// <returns>What was entered last for it; null if nothing was.</returns>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be read.</exception>
    public static DayListEntered? FindDayList(ExamLogStore log, DateOnly day)
    {
        ArgumentNullException.ThrowIfNull(log);
        return log.FindLookUp(DayLists, KeyOf(day)) is { } found
            ? ExamJson.ReadOther<DayListEntered>(Encoding.UTF8.GetBytes(found.Text))
            : null;
    }

    /// <summary>Reads an exam out of the exam log.</summary>
    /// <param name="stored">As it is stored.</param>
    /// <returns>The whole exam.</returns>
    /// <exception cref="System.Text.Json.JsonException">Something else is stored there.</exception>
    public static Exam Read(StoredExam stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return ExamJson.Read(stored.Body.Span);
    }

    /// <summary>Reads a patient out of the exam log.</summary>
    /// <param name="stored">As it is stored.</param>
    /// <returns>What was entered last.</returns>
    /// <exception cref="System.Text.Json.JsonException">Something else is stored there.</exception>
    public static PatientEntered Read(StoredPatient stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return ExamJson.ReadOther<PatientEntered>(stored.Body.Span);
    }

    /// <summary>Reads an instrument out of the exam log.</summary>
    /// <param name="stored">As it is stored.</param>
    /// <returns>The entry in which it said last who it is.</returns>
    /// <exception cref="System.Text.Json.JsonException">Something else is stored there.</exception>
    public static InstrumentMet Read(StoredInstrument stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return ExamJson.ReadOther<InstrumentMet>(stored.Body.Span);
    }

    /// <summary>Who examined: whoever judged last, else whoever opened it.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Null if nobody has said.</returns>
    public static PersonId? ExaminerOf(Exam exam) =>
        exam.Judgements.Count > 0 ? exam.Judgements[^1].Who : exam.Opening.ByPerson;

    /// <summary>A day as lists name it.</summary>
    /// <param name="day">The day.</param>
    /// <returns>The date as year-month-day.</returns>
    public static string KeyOf(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>
    /// Whether an exam waits for a clinician: made ready; over though nobody made it ready, since else nobody would ever look at it again;
    /// or with an amendment that was begun and not signed.
    /// </summary>
    /// <param name="exam">The exam.</param>
    /// <returns>True if it does.</returns>
    public static bool AwaitsReview(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        // Nobody can sign what was erased.
        if (exam.Erasure is not null)
            return false;
        return exam.Status == ExamStatus.ReadyForReview
            || exam is { Status: ExamStatus.Open, Closing: not null }
            || (exam.IsBeingAmended && exam.Status != ExamStatus.SetAside);
    }

    private static ReviewTurn ReviewOf(Exam exam, ValueList<string> findings)
    {
        if (!AwaitsReview(exam))
            return ReviewTurn.NotWaiting;
        return findings.Contains(ExamFindings.BeforeDrops) ? ReviewTurn.First : ReviewTurn.Waiting;
    }
}
