using PupilBridge.Clinic.Entries;
using PupilBridge.Simulator;

namespace PupilBridge.Voyage.People;

/// <summary>Makes what people enter, each with an id of its own drawn where it is typed.</summary>
internal sealed class EntryMaker(Chance chance, TimeProvider time, string who)
{
    private string NewId => $"{chance.NextBits():x16}{chance.NextBits():x16}";

    public DeskEntry Patient(string number)
    {
        var id = NewId;
        return new PatientEntry
        {
            EntryId = id,
            Who = who,
            At = time.GetUtcNow(),
            ProgramVersion = "voyage",
            Patient = number,
            // Nobody else's, so that whatever is left of it anywhere is known for this person's.
            Name = $"Pilot {number} {id[..8]}",
            BirthDate = new DateOnly(1970, 1, 1).AddDays(chance.NextInteger(0, 9000)),
            IsCorrection = true,
        };
    }

    public DeskEntry Merge(string kept, string merged) =>
        new MergeEntry
        {
            EntryId = NewId,
            Who = who,
            At = time.GetUtcNow(),
            ProgramVersion = "voyage",
            Kept = kept,
            Merged = merged,
            IsDespiteBirthDates = true,
            Reason = "came under two numbers",
        };

    public DeskEntry Erase(string number) =>
        new ErasePatientEntry
        {
            EntryId = NewId,
            Who = who,
            At = time.GetUtcNow(),
            ProgramVersion = "voyage",
            Patient = number,
            OrderedBy = "DP",
            Reason = "request by letter",
        };

    public DeskEntry Open(string serial, string? patient) =>
        new OpenExamEntry
        {
            EntryId = NewId,
            Who = who,
            At = time.GetUtcNow(),
            ProgramVersion = "voyage",
            Instrument = serial,
            Patient = patient,
        };

    public AboutExam About(long exam) => new(this, exam);

    /// <summary>Entries about one exam.</summary>
    internal readonly struct AboutExam(EntryMaker maker, long exam)
    {
        public DeskEntry Judgement(string text) =>
            Stamped(
                new JudgementEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Judgement = text,
                }
            );

        public DeskEntry Note(string text) =>
            Stamped(
                new NoteEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Text = text,
                }
            );

        public DeskEntry Room(string light) =>
            Stamped(
                new RoomLightEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Light = light,
                }
            );

        public DeskEntry Attach(string patient) =>
            Stamped(
                new AttachEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Patient = patient,
                }
            );

        public DeskEntry Move(string patient) =>
            Stamped(
                new MoveEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Patient = patient,
                    Reason = "wrong number typed",
                }
            );

        public DeskEntry Split(long from) =>
            Stamped(
                new SplitEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    From = from,
                    Reason = "two people in one exam",
                }
            );

        public DeskEntry Withdraw(string id) =>
            Stamped(
                new WithdrawEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Withdrawn = id,
                }
            );

        public DeskEntry Ready() =>
            Stamped(
                new MakeReadyEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                }
            );

        public DeskEntry SetAside() =>
            Stamped(
                new SetAsideEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Reason = "stopped half-way",
                }
            );

        public DeskEntry Sign(string digest) =>
            Stamped(
                new SignEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    SeenDigest = digest,
                }
            );

        public DeskEntry Amend() =>
            Stamped(
                new AmendEntry
                {
                    EntryId = "",
                    Who = "",
                    At = default,
                    ProgramVersion = "",
                    Exam = 0,
                    Reason = "grade put right",
                }
            );

        private DeskEntry Stamped(ExamDeskEntry entry) =>
            entry with
            {
                EntryId = maker.NewId,
                Who = maker.Who,
                At = maker.Now,
                ProgramVersion = "voyage",
                Exam = exam,
            };
    }

    private string Who => who;

    private DateTimeOffset Now => time.GetUtcNow();
}
