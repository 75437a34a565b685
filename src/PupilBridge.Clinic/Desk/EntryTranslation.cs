using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>From what came over the desk to the journal's entries, with a message for a person wherever something is no value.</summary>
internal static partial class EntryTranslation
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
            MergeEntry e => new PatientsMerged
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Kept = Given.Patient(e.Kept),
                Merged = Given.Patient(e.Merged),
                IsDespiteBirthDates = e.IsDespiteBirthDates,
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            // Which merging stands is put in where the house is known.
            PartEntry e => new PatientsParted
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Merging = string.IsNullOrEmpty(e.Merging) ? default : Given.Id(e.Merging),
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
            },
            // Which exams and keys go is put in where the house is known.
            ErasePatientEntry e => new PatientErased
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Patients = [],
                Texts = [],
                Exams = [],
                Records = 0,
                OrderedBy = Given.Person(e.OrderedBy).Value,
                Reason = Given.Needed(e.Reason, ClinicText.Desk["What.Reason"]),
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
            DiscSetEntry or BeginRunEntry or LampBalanceEntry or RunDeskEntry => OfBench(entry, by)
                ?? throw Unknown(entry),
            ExamDeskEntry e => Course(e, by) ?? Condition(e, by) ?? Finding(e, by) ?? throw Unknown(e),
            _ => throw Unknown(entry),
        };
    }

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
