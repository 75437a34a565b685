using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Constructed.Scripts;

/// <summary>What every entry of a person begins with.</summary>
public readonly record struct By(EntryId Id, PersonId Who, UtcTime At, string Version);

/// <summary>The script's commands that are people's entries about an exam.</summary>
public static partial class PersonEntries
{
    public static Func<By, ExamId, ExamEntry>? Make(
        string[] w,
        Dictionary<string, (JournalSequence Sequence, EntryId Id)> labels,
        JournalSequence? saw
    ) =>
        w[0] switch
        {
            "shape" => Judge(new ShapeJudgement(ScriptCommands.EyeOf(w[1]), Enum.Parse<PupilShape>(w[2], true)), saw),
            "direct" => Judge(new DirectResponse(ScriptCommands.EyeOf(w[1]), GradeOf(w[2])), saw),
            "near" => Judge(new NearResponse(ScriptCommands.EyeOf(w[1]), GradeOf(w[2])), saw),
            "consensual" => Judge(Consensual(w), saw),
            "slow" => Judge(new SlowToDilate(ScriptCommands.EyeOf(w[1])), saw),
            "swing" => Judge(Swing(w), saw), // swing short alike | swing long R | swing long L only=R
            "attach" => (by, exam) =>
                new ExamAttached
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Patient = new(w[1]),
                    Reason = "seen at the desk",
                },
            "move" => (by, exam) =>
                new ExamMoved
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Patient = new(w[1]),
                    Reason = "wrong patient",
                },
            "split" => (by, exam) =>
                new ExamSplit
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    From = labels[w[1]].Sequence,
                    Reason = "two sittings",
                },
            "undo" => (by, exam) =>
                new EntryWithdrawn
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Withdrawn = labels[w[1]].Id,
                    Reason = null,
                },
            "status" => (by, exam) =>
                new EyeStatusEntered
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Eye = ScriptCommands.EyeOf(w[1]),
                    Conditions = Enum.Parse<EyeConditions>(w[2], true),
                },
            "filter" => (by, exam) =>
                new FilterStepEntered
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    BeforeEye = ScriptCommands.EyeOf(w[1]),
                    FilterSteps = int.Parse(w[2], System.Globalization.CultureInfo.InvariantCulture),
                    Answer = Enum.Parse<BracketAnswer>(w[3], true),
                },
            "bell" => (by, exam) =>
                new BellGradeEntered
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Eye = ScriptCommands.EyeOf(w[1]),
                    Grade = Enum.Parse<BellGrade>(w[2]),
                },
            "note" => (by, exam) =>
                new NoteEntered
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Text = string.Join(' ', w[1..]),
                },
            "accept" => (by, exam) =>
                new NotExaminedAccepted
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Steps = [.. w[1..].Select(step => Enum.Parse<ExamStep>(step, true))],
                },
            "say" when w[1] is "bright" or "dim" => (by, exam) =>
                new RoomLightEntered
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Light = Enum.Parse<RoomLight>(w[1], true),
                },
            "say" => (by, exam) =>
                new FixationEntered
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Fixation = Enum.Parse<Fixation>(w[1], true),
                },
            "ready" => (by, exam) =>
                new ExamMadeReady
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                },
            "aside" => (by, exam) =>
                new ExamSetAside
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Reason = "practice only",
                },
            "sending" => (by, exam) => // sending 1 Refused [back]: version, outcome, whether about taking it back
                new RecordSent
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Version = int.Parse(w[1], System.Globalization.CultureInfo.InvariantCulture),
                    Outcome = Enum.Parse<SendingOutcome>(w[2], true),
                    IsWithdrawal = w.Length > 3,
                    Destination = "hospital",
                    AnswerCode = null,
                    Attempt = 1,
                    Location = null,
                    Reason = "",
                },
            "deciding" => (by, exam) => // deciding 1 Again: version, decision
                new SendingDecided
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Version = int.Parse(w[1], System.Globalization.CultureInfo.InvariantCulture),
                    Decision = Enum.Parse<SendingDecision>(w[2], true),
                    Reason = "",
                },
            "sign" => (by, exam) => // sign 1 TEXT…: version and record
                new ExamSigned
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Version = int.Parse(w[1], System.Globalization.CultureInfo.InvariantCulture),
                    Record = w.Length > 2 ? string.Join(' ', w[2..]) : $"record {w[1]}",
                    Reason = null,
                },
            "amend" => (by, exam) =>
                new AmendmentBegun
                {
                    Id = by.Id,
                    Who = by.Who,
                    At = by.At,
                    ProgramVersion = by.Version,
                    Exam = exam,
                    Reason = w.Length > 1 ? string.Join(' ', w[1..]) : "to be put right",
                },
            _ => null,
        };
}
