using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Tables.Columns;

namespace PupilBridge.Exchange.Research;

/// <summary>
/// One exam with what may be said of it without saying who it was. The record itself is still whole: only the columns of
/// <see cref="ResearchTables"/>, which are chosen one by one, are written.
/// </summary>
/// <param name="Exam">The exam.</param>
/// <param name="Subject">What stands for the patient.</param>
/// <param name="Visit">What stands for the exam.</param>
/// <param name="Examiner">What stands for whoever opened it; null if it opened by itself.</param>
/// <param name="Instrument">What stands for the instrument.</param>
/// <param name="Day">The day of the exam, shifted.</param>
/// <param name="AgeBand">The age in bands of ten years; null if it is not known.</param>
public sealed record ResearchExam(
    OutgoingRecord Exam,
    string Subject,
    string Visit,
    string? Examiner,
    string Instrument,
    DateOnly Day,
    string? AgeBand
)
{
    /// <summary>Whether anything stands in the record of the state of an eye, such as a prosthesis.</summary>
    public bool HasEyeStatus => Exam.Record.EyeStatuses.Any(status => status.Counts);

    /// <summary>Takes the identity away.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="names">The names of this export.</param>
    /// <returns>Null for an exam that is not exported: not signed, set aside, or attached to nobody.</returns>
    public static ResearchExam? Of(OutgoingRecord exam, Pseudonyms names)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(names);
        if (exam is not { IsSetAside: false, Signature: not null, Record.Patient: { } patient })
        {
            return null;
        }

        // Two numbers that are merged are one subject, whose days are all shifted alike.
        var subject = exam.Patient?.MergedInto ?? patient;
        return new ResearchExam(
            exam,
            names.Subject(subject),
            names.Visit(exam.Record.Exam),
            exam.Record.Opened.Who is { } who ? names.Examiner(who) : null,
            names.Instrument(exam.Record.Instrument.Serial),
            names.Shifted(subject, Ages.DayOf(exam)),
            AgeBands.Of(Ages.Of(exam))
        );
    }
}
