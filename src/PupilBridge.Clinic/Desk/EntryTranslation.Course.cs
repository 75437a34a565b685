using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>From what came over the desk to the journal's entries: an exam's course.</summary>
internal static partial class EntryTranslation
{
    /// <summary>What concerns the exam as a whole.</summary>
    private static ExamEntry? Course(ExamDeskEntry entry, Stamp by) =>
        entry switch
        {
            AttachEntry e => new ExamAttached
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Patient = Given.Patient(e.Patient),
                Reason = Given.Text(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            MoveEntry e => new ExamMoved
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Patient = Given.Patient(e.Patient),
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            SplitEntry e => new ExamSplit
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                From = new JournalSequence(e.From),
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            MakeReadyEntry e => new ExamMadeReady
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
            },
            // The record itself is put in where the exam is known.
            SignEntry e => new ExamSigned
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Version = 1,
                Record = null,
                Reason = null,
            },
            AmendEntry e => new AmendmentBegun
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            SendingEntry e => new SendingDecided
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Version = e.Version,
                Decision = e.Decision switch
                {
                    SendingEntry.Retry => SendingDecision.Again,
                    SendingEntry.Withhold => SendingDecision.Withheld,
                    _ => throw new EntryProblemException(ClinicText.Outbox.Get("Decision.None", e.Decision)),
                },
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            SetAsideEntry e => new ExamSetAside
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            _ => null,
        };
}
