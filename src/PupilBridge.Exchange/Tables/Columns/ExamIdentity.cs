using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>Which exam it is, of whom, by whom and with which instrument.</summary>
internal static class ExamIdentity
{
    public const string Statuses = "draft, signed, amended, set-aside";

    public static IReadOnlyList<Column<OutgoingRecord>> All { get; } =
    [
        new("exam", CellKind.Whole, "", "1 or more", "The exam's number.", exam => Cell.Of(exam.Record.Exam)),
        new(
            "version",
            CellKind.Whole,
            "",
            "1 or more",
            "Which version of the record the row shows: the latest signed one, or the one that would be signed next while none is.",
            exam => Cell.Of(exam.Record.Version)
        ),
        new(
            "status",
            CellKind.Word,
            "",
            Statuses,
            "draft: nobody has signed it. amended: signed again after an amendment. set-aside: not to be used.",
            exam => Cell.Of(StatusOf(exam))
        ),
        new(
            "signed_by",
            CellKind.Text,
            "",
            "1 to 64 characters",
            "The sign-in name of the clinician who signed this version; empty for a draft.",
            exam => Cell.Of(exam.Signature?.Who)
        ),
        new(
            "signed_at",
            CellKind.Time,
            "UTC",
            "ISO 8601",
            "When this version was signed; empty for a draft.",
            exam => Cell.Of(exam.Signature?.At)
        ),
        new(
            "record_sha256",
            CellKind.Word,
            "",
            "64 hexadecimal digits",
            "The SHA-256 of the signed record's text, by which the row can be held against the journal; empty for a draft.",
            exam => Cell.Of(exam.Signature?.Digest)
        ),
        new(
            "patient",
            CellKind.Text,
            "",
            "1 to 64 characters",
            "The clinic's number of the patient; empty while the exam is attached to nobody.",
            exam => Cell.Of(exam.Record.Patient)
        ),
        new(
            "patient_merged_into",
            CellKind.Text,
            "",
            "1 to 64 characters",
            "The number that goes on for the same person, where the exam's is merged into it now; empty where it is not.",
            exam => Cell.Of(exam.Patient?.MergedInto)
        ),
        new(
            "birth_date",
            CellKind.Date,
            "",
            "year-month-day",
            "The date of birth as it is known now; empty if it is not known.",
            exam => Cell.Of(exam.Patient?.BirthDate)
        ),
        new(
            "age_years",
            CellKind.Whole,
            "years",
            "0 to 150",
            "Completed years on the day that the exam opened, by UTC; empty if the date of birth is not known or is later.",
            exam => Cell.Of(Ages.Of(exam))
        ),
        new(
            "opened_at",
            CellKind.Time,
            "UTC",
            "ISO 8601",
            "When the exam opened.",
            exam => Cell.Of(exam.Record.Opened.At)
        ),
        new(
            "opened_by",
            CellKind.Text,
            "",
            "1 to 64 characters",
            "Who opened it; empty if it opened by itself.",
            exam => Cell.Of(exam.Record.Opened.Who)
        ),
        new(
            "closed_at",
            CellKind.Time,
            "UTC",
            "ISO 8601",
            "When it was over for the instrument; empty while it is not.",
            exam => Cell.Of(exam.Record.Closed?.At)
        ),
        new(
            "closed_because",
            CellKind.Word,
            "",
            Vocabulary.Of<ClosingReason>(),
            "Why it was over.",
            exam => Cell.Of(exam.Record.Closed?.Reason)
        ),
        new(
            "instrument",
            CellKind.Text,
            "",
            "serial number",
            "The instrument.",
            exam => Cell.Of(exam.Record.Instrument.Serial)
        ),
        new(
            "model",
            CellKind.Text,
            "",
            "text",
            "Its model; empty if it never told.",
            exam => Cell.Of(exam.Record.Instrument.Model)
        ),
        new(
            "firmware",
            CellKind.Text,
            "",
            "text",
            "The version of its program; empty if it never told.",
            exam => Cell.Of(exam.Record.Instrument.Firmware)
        ),
        new(
            "calibration",
            CellKind.Whole,
            "",
            "1 or more",
            "The number of the calibration certificate in force when the exam opened; empty if there was none, and for records signed before "
                + "format 3, which did not say.",
            exam => Cell.Of(exam.Record.Calibration?.Number)
        ),
        new(
            "calibration_standing",
            CellKind.Word,
            "",
            "holds, missing, expired, failed",
            "How that calibration stood then: missing is no calibration at all; expired and failed ones correct sizes all the same. Empty for "
                + "records signed before format 3.",
            exam => Cell.Of(exam.Record.Calibration?.Standing)
        ),
        new(
            "lamp_balance_days",
            CellKind.Whole,
            "days",
            "0 or more",
            "How old the last comparison of the two lamps was at the exam; empty if they were never compared. Unequal lamps imitate a "
                + "relative afferent defect.",
            exam => Cell.Of(exam.Record.Lamps?.AgeDays)
        ),
        new(
            "profile",
            CellKind.Text,
            "",
            "text",
            "The name of the profile in force.",
            exam => Cell.Of(exam.Record.Profile.Name)
        ),
        new(
            "profile_version",
            CellKind.Whole,
            "",
            "1 or more",
            "The profile's version.",
            exam => Cell.Of(exam.Record.Profile.Version)
        ),
        new(
            "steps_not_done",
            CellKind.Word,
            "",
            "step:state, with blanks between",
            "The steps of the profile that are not done, each with where it stands; empty if all are done.",
            exam => Cell.Of(NotDone(exam))
        ),
    ];

    /// <summary>Where an exam stands, in one of <see cref="Statuses"/>.</summary>
    public static string StatusOf(OutgoingRecord exam) =>
        exam.IsSetAside ? "set-aside"
        : exam.Signature is null ? "draft"
        : exam.Record.Version > 1 ? "amended"
        : "signed";

    private static string NotDone(OutgoingRecord exam) =>
        string.Join(
            ' ',
            exam.Record.Steps.Where(step => step.State != "done").Select(step => $"{step.Step}:{step.State}")
        );
}
