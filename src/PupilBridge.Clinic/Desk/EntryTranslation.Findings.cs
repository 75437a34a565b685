using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>From what came over the desk to the journal's entries: what holds around the eyes, and what was seen.</summary>
internal static partial class EntryTranslation
{
    /// <summary>What holds around the eyes.</summary>
    private static ExamEntry? Condition(ExamDeskEntry entry, Stamp by) =>
        entry switch
        {
            RoomLightEntry e => new RoomLightEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Light = ClinicWords.Lights.Read(e.Light),
            },
            FixationEntry e => new FixationEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Fixation = ClinicWords.Fixations.Read(e.Fixation),
            },
            EyeStatusEntry e => new EyeStatusEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Eye = ClinicWords.Eyes.Read(e.Eye),
                Conditions = Given.Conditions(e.Conditions),
            },
            _ => null,
        };

    /// <summary>What was seen, or not, and remarks.</summary>
    private static ExamEntry? Finding(ExamDeskEntry entry, Stamp by) =>
        entry switch
        {
            JudgementEntry e => new JudgementEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Judgement = Given.Judgement(e.Judgement),
                StepSeen = e.StepSeen is null ? null : ClinicWords.Steps.Read(e.StepSeen),
                StimulusSeen = e.StimulusSeen is { } seen ? new JournalSequence(seen) : null,
            },
            FilterStepEntry e => new FilterStepEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                BeforeEye = ClinicWords.Eyes.Read(e.BeforeEye),
                FilterSteps = DefectGradeReading.Steps(e.LogUnits),
                Answer = DefectGradeReading.Answer(e, ClinicWords.Eyes.Read(e.BeforeEye)),
            },
            BellGradeEntry e => new BellGradeEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Eye = ClinicWords.Eyes.Read(e.Eye),
                Grade = DefectGradeReading.Grade(e.Grade),
            },
            NoteEntry e => new NoteEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Text = Given.Needed(e.Text, ClinicText.Desk["What.Remark"]),
            },
            WithdrawEntry e => new EntryWithdrawn
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Withdrawn = Given.Id(e.Withdrawn),
                Reason = Given.Text(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            NotExaminedEntry e => new NotExaminedAccepted
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = Given.Exam(e.Exam),
                Steps = Given.Steps(e.Steps),
            },
            _ => null,
        };
}
