using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Entries;
using ChartWords = PupilBridge.Exams.Notation.Words;

namespace PupilBridge.Clinic.Records;

/// <summary>A journal entry in a sentence.</summary>
internal static class EntryWords
{
    /// <summary>The sentence.</summary>
    public static string Of(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported reported => $"Instrument {reported.Serial}: {EventWords.Of(reported.RawLine)}",
            InstrumentMet met => $"Instrument {met.Serial} said who it is, on {met.PortName}.",
            EventsLost { Last: null } lost =>
                $"Events of {lost.Serial} are lost for good, from number {lost.First} on.",
            EventsLost lost => $"Events {lost.First} to {lost.Last} of {lost.Serial} are lost for good.",
            EventsConflict conflict => $"Event {conflict.Sequence} of {conflict.Serial} came again with other content.",
            LineChanged line => $"The line {line.PortName} to {Name(line)} is {Shown.Word(line.State)}.",
            CommandWished command =>
                $"{command.Who?.Value ?? "The service"} asked {command.Serial} for {command.Command}.",
            CommandEnded ended => $"Command {ended.Number} to {ended.Serial} ended: {Shown.Word(ended.Outcome)}.",
            ServiceStarted started => $"The service started, version {started.ProgramVersion}.",
            ProfileInForce profile =>
                $"The profile '{profile.Profile.Name}', version {profile.Profile.Version}, is in force.",
            SilenceReached silence => $"Instrument {silence.Serial} had been silent for as long as the profile allows.",
            PatientEntered patient => $"{patient.Who} entered patient {patient.Patient}.",
            ExamOpened opened => $"{opened.Who} opened an exam on {opened.Serial} for {Patient(opened.Patient)}.",
            ExamEntry about => $"{about.Who}, exam {about.Exam}: {About(about)}.",
            DayListEntered list =>
                $"{list.Who} gave the list of {list.Date:yyyy-MM-dd} with {list.Items.Count} patients.",
            PersonEntry person => $"{person.Who}: {Kind(person)}.",
            _ => $"{Kind(entry)}.",
        };

    private static string About(ExamEntry entry) =>
        entry switch
        {
            JudgementEntered judged => JudgementSyntax.Write(judged.Judgement),
            RoomLightEntered light => $"the room is {ClinicWords.Lights[light.Light]}",
            FixationEntered fixation => $"the patient looks {ClinicWords.Fixations[fixation.Fixation]}",
            EyeStatusEntered status => $"{ChartWords.Of(status.Eye)}: {ChartWords.Of(status.Conditions)}",
            NoteEntered { Text: { } text } => $"remark '{text}'",
            NotExaminedAccepted accepted =>
                $"accepted as not examined: {string.Join(", ", accepted.Steps.Select(ChartWords.Of))}",
            EntryWithdrawn withdrawn => $"took back entry {withdrawn.Withdrawn}",
            ExamAttached attached => $"attached to {attached.Patient}",
            ExamMoved moved => $"moved to {moved.Patient}",
            ExamSigned signed => $"signed version {signed.Version} of the record",
            AmendmentBegun => "began to amend the record",
            ExamMadeReady => "made ready for review",
            ExamSetAside => "set aside",
            ExamSplit split => $"split from entry {split.From} on",
            _ => Kind(entry),
        };

    private static string Kind(JournalEntry entry) => EntryFields.KindOf(entry).Replace('-', ' ');

    private static string Name(LineChanged line) => line.Serial is { } serial ? $"{serial}" : "an unknown instrument";

    private static string Patient(PatientId? patient) => patient is { } known ? $"patient {known}" : "nobody yet";
}
