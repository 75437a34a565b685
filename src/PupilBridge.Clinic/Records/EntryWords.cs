using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Records;

/// <summary>A journal entry in a sentence.</summary>
internal static class EntryWords
{
    /// <summary>The sentence.</summary>
    public static string Of(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported said => ClinicText.Records.Get(
                "Entry.Reported",
                said.Serial,
                EventWords.Of(said.RawLine)
            ),
            PatientEntered patient => ClinicText.Records.Get("Entry.Patient", patient.Who, patient.Patient),
            PatientsMerged merged => ClinicText.Records.Get(
                "Entry.Merged",
                merged.Who,
                merged.Merged,
                merged.Kept,
                merged.Reason ?? ""
            ),
            PatientsParted parted => ClinicText.Records.Get(
                "Entry.Parted",
                parted.Who,
                parted.Merging,
                parted.Reason ?? ""
            ),
            ExamOpened { Patient: { } patient } opened => ClinicText.Records.Get(
                "Entry.Opened",
                opened.Who,
                opened.Serial,
                patient
            ),
            ExamOpened opened => ClinicText.Records.Get("Entry.OpenedForNobody", opened.Who, opened.Serial),
            ExamEntry about => ClinicText.Records.Get("Entry.About", about.Who, about.Exam, AboutWords.Of(about)),
            DayListEntered list => ClinicText.Records.Counted(
                "Entry.DayList",
                list.Items.Count,
                list.Who,
                ExamDocuments.KeyOf(list.Date),
                list.Items.Count
            ),
            PersonEntry person => ClinicText.Records.Get("Entry.Other", person.Who, Kind(person)),
            _ => OfSystem(entry),
        };

    private static string OfSystem(JournalEntry entry) =>
        entry switch
        {
            InstrumentMet met => ClinicText.Records.Get("Entry.Met", met.Serial, met.PortName),
            EventsLost { Last: null } lost => ClinicText.Records.Get("Entry.LostFrom", lost.Serial, lost.First),
            EventsLost lost => ClinicText.Records.Get("Entry.Lost", lost.Serial, lost.First, lost.Last),
            EventsConflict conflict => ClinicText.Records.Get("Entry.Conflict", conflict.Serial, conflict.Sequence),
            LineChanged { Serial: { } serial } line => ClinicText.Records.Get(
                "Entry.Line",
                line.PortName,
                serial,
                Shown.Word(line.State)
            ),
            LineChanged line => ClinicText.Records.Get("Entry.LineUnmet", line.PortName, Shown.Word(line.State)),
            CommandWished { Who: { } who } wished => ClinicText.Records.Get(
                "Entry.Wished",
                who,
                wished.Serial,
                wished.Command
            ),
            CommandWished wished => ClinicText.Records.Get("Entry.WishedByService", wished.Serial, wished.Command),
            CommandEnded ended => ClinicText.Records.Get(
                "Entry.Ended",
                ended.Number,
                ended.Serial,
                Shown.Word(ended.Outcome)
            ),
            ServiceStarted started => ClinicText.Records.Get("Entry.Started", started.ProgramVersion),
            ProfileInForce { Profile: var profile } => ClinicText.Records.Get(
                "Entry.Profile",
                profile.Name,
                profile.Version
            ),
            SilenceReached silence => ClinicText.Records.Get("Entry.Silence", silence.Serial),
            _ => ClinicText.Records.Get("Entry.OtherOfService", Kind(entry)),
        };

    private static string Kind(JournalEntry entry) => EntryFields.KindOf(entry).Replace('-', ' ');
}
