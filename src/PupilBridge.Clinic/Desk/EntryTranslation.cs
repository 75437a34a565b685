using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>From what came over the desk to the journal's entries, with a message for a person wherever something is no value.</summary>
internal static class EntryTranslation
{
    /// <summary>Makes the journal's entry.</summary>
    /// <exception cref="EntryProblemException">Something in it is no value; the message says what and what is possible.</exception>
    public static PersonEntry Read(DeskEntry entry)
    {
        var by = new Stamp(entry);
        return entry switch
        {
            PatientEntry e => new PatientEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Patient = Given.Patient(e.Patient),
                Details = new PatientDetails
                {
                    Name = Given.Text(e.Name, ClinicText.Desk["What.Name"]) ?? "",
                    BirthDate = Given.BirthDate(e.BirthDate, e.At),
                },
            },
            OpenExamEntry e => new ExamOpened
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Serial = Given.Serial(e.Instrument),
                Patient = e.Patient is null ? null : Given.Patient(e.Patient),
            },
            DayListEntry e => new DayListEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Date = e.Day,
                Items = DayListItems.Of(e.Lines),
                SourceName = Given.Text(e.Source, ClinicText.Desk["What.FileName"], 200) ?? "",
            },
            ExamDeskEntry e => Course(e, by) ?? Condition(e, by) ?? Finding(e, by) ?? throw Unknown(e),
            _ => throw Unknown(entry),
        };
    }

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

    private static EntryProblemException Unknown(DeskEntry entry) =>
        new(ClinicText.Desk.Get("Entry.Unknown", entry.GetType().Name));

    /// <summary>Who, when and under which version; read first, so that whatever is wrong there is said first.</summary>
    private sealed class Stamp(DeskEntry entry)
    {
        public EntryId Id { get; } = Given.Id(entry.EntryId);

        public PersonId Who { get; } = Given.Person(entry.Who);

        public UtcTime At { get; } = UtcTime.From(entry.At);

        public string Version { get; } = Given.Needed(entry.ProgramVersion, ClinicText.Desk["What.Version"]);
    }
}
