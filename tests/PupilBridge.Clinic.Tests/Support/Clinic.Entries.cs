using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Tests.Support;

/// <summary>What people enter, by MK; by DR where a clinician has to.</summary>
internal sealed partial class Clinic
{
    public OpenExamEntry Opening(string? patient = "Q-1001", string serial = Serial) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Instrument = serial,
            Patient = patient,
        };

    public JudgementEntry Judging(long exam, string judgement) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Judgement = judgement,
        };

    public RoomLightEntry Light(long exam, string light) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Light = light,
        };

    public FixationEntry Fixation(long exam, string fixation) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Fixation = fixation,
        };

    public EyeStatusEntry Status(long exam, string eye, string[] conditions) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Eye = eye,
            Conditions = conditions,
        };

    public MakeReadyEntry Ready(long exam) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
        };

    public SignEntry Signature(long exam, string? seen) =>
        new()
        {
            EntryId = NewId(),
            Who = "DR",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            SeenDigest = seen ?? "",
        };

    public AmendEntry Amending(long exam, string reason) =>
        new()
        {
            EntryId = NewId(),
            Who = "DR",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Reason = reason,
        };

    public PatientEntry Patient(string number, string? name, DateOnly? born = null) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Patient = number,
            Name = name,
            BirthDate = born,
        };

    public NoteEntry Note(long exam, string text) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Text = text,
        };

    public AttachEntry Attaching(long exam, string patient) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Patient = patient,
        };

    public NotExaminedEntry NotExamined(long exam, IReadOnlyList<string> steps) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Steps = steps,
        };

    public SetAsideEntry SettingAside(long exam, string reason) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Reason = reason,
        };

    public WithdrawEntry Withdrawing(long exam, string entry) =>
        new()
        {
            EntryId = NewId(),
            Who = "MK",
            At = Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Withdrawn = entry,
        };
}
