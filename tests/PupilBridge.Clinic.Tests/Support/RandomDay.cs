using System.Globalization;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Support;

/// <summary>
/// A day's journal drawn from a seed: two instruments, people who enter sensible things and mistakes, lines that are lost, exams that
/// are attached, moved, split, taken back and set aside long after they ended.
/// </summary>
internal sealed partial class RandomDay
{
    private readonly Random dice;
    private readonly ScriptedInstrument[] instruments;

    // A die of its own, so that a day without a bench is the same as ever.
    private readonly Random? bench;
    private readonly List<long> runs = [];
    private readonly List<long> openings = [];
    private readonly List<EntryId> entered = [];
    private long sequence;
    private UInt128 drawn;

    public RandomDay(int seed, bool withBench = false)
    {
        dice = new Random(seed);
        bench = withBench ? new Random(seed + 1) : null;
        var start = new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
        instruments =
        [
            new ScriptedInstrument("QA-0001", start),
            new ScriptedInstrument("QB-0002", start.AddSeconds(7)),
        ];
    }

    /// <summary>The entries, given the sequence of the one before them.</summary>
    /// <param name="steps">How many things happen; each is one entry or a few.</param>
    /// <param name="before">The journal's last sequence before them.</param>
    public IEnumerable<JournalEntry> Entries(int steps, Func<long> before)
    {
        foreach (var instrument in instruments)
        {
            yield return instrument.Met();
        }

        for (var step = 0; step < steps; step++)
        {
            var instrument = instruments[dice.Next(instruments.Length)];
            foreach (var entry in bench?.Next(5) == 0 ? OnTheBench(instrument) : Something(instrument))
            {
                sequence = before() + 1;
                yield return entry;
                if (entry is BenchRunBegun)
                    runs.Add(sequence);
                if (entry is PersonEntry person)
                {
                    entered.Add(person.Id);
                    openings.Add(entry is ExamOpened or ExamSplit ? sequence : openings.LastOrDefault(1));
                }
            }
        }
    }

    private IEnumerable<JournalEntry> Something(ScriptedInstrument at) =>
        dice.Next(18) switch
        {
            0 => [at.Dial(InstrumentMode.Idle)],
            1 or 2 => [at.Dial(InstrumentMode.Measure)],
            3 or 4 => at.Mark(AnyEye(), dice.Next(500, 9_000)),
            5 => at.DirectBlock(),
            6 => at.SwingBlock(Block.SwingShort, dice.Next(900, 1100)),
            7 => at.SwingBlock(Block.SwingLong, dice.Next(2900, 3100)),
            8 => at.Light(AnyEye(), dice.Next(100, 2000), dice.Next(50, 3000)),
            9 => dice.Next(4) == 0 ? [at.SwitchOff(), at.Met()] : [at.Met()],
            10 => [Line(at)],
            11 => [new SilenceReached { At = UtcTime.From(at.Now), Serial = at.Serial }],
            12 or 13 => [Opened(at)],
            14 => [Patient(at)],
            _ => [AboutAnExam(at)],
        };

    private PersonEntry AboutAnExam(ScriptedInstrument at)
    {
        var (id, who, when) = (NewId(), new PersonId(dice.Next(2) == 0 ? "MK" : "KL"), UtcTime.From(at.Now));
        var exam = new ExamId(openings.Count == 0 ? dice.Next(1, 50) : openings[dice.Next(openings.Count)]);
        const string Version = "0.1.0";
        return dice.Next(10) switch
        {
            0 => new RoomLightEntered
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Light = (RoomLight)dice.Next(1, 3),
            },
            1 => new FixationEntered
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Fixation = (Fixation)dice.Next(1, 3),
            },
            2 => new ExamAttached
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Patient = AnyPatient(),
                Reason = null,
            },
            3 => new ExamMoved
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Patient = AnyPatient(),
                Reason = "mixed up",
            },
            4 => new ExamMadeReady
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
            },
            5 => new ExamSetAside
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Reason = "drops",
            },
            6 => new ExamSplit
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                From = new(exam.Value + dice.Next(1, 20)),
                Reason = "two people",
            },
            7 => new EntryWithdrawn
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Withdrawn = entered.Count == 0 ? id : entered[dice.Next(entered.Count)],
                Reason = null,
            },
            8 => new EyeStatusEntered
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Eye = AnyEye(),
                Conditions = (EyeConditions)dice.Next(64),
            },
            _ => new JudgementEntered
            {
                Id = id,
                Who = who,
                At = when,
                ProgramVersion = Version,
                Exam = exam,
                Judgement = AnyJudgement(),
                StepSeen = (ExamStep)dice.Next(1, 9),
                StimulusSeen = null,
            },
        };
    }

    private Judgement AnyJudgement() =>
        dice.Next(4) switch
        {
            0 => new ShapeJudgement(AnyEye(), (PupilShape)dice.Next(1, 4)),
            1 => new DirectResponse(AnyEye(), Grade.FromHalfSteps(dice.Next(9))),
            2 => new NearResponse(AnyEye(), Grade.Of(dice.Next(5))),
            _ => new SwingOutcome(
                dice.Next(2) == 0 ? Block.SwingShort : Block.SwingLong,
                (SwingFinding)dice.Next(1, 5),
                PupilsObserved.Both
            ),
        };

    private ExamOpened Opened(ScriptedInstrument at) =>
        new()
        {
            Id = NewId(),
            Who = new PersonId("MK"),
            At = UtcTime.From(at.Now),
            ProgramVersion = "0.1.0",
            Serial = at.Serial,
            Patient = dice.Next(3) == 0 ? null : AnyPatient(),
        };

    private PatientEntered Patient(ScriptedInstrument at) =>
        new()
        {
            Id = NewId(),
            Who = new PersonId("MK"),
            At = UtcTime.From(at.Now),
            ProgramVersion = "0.1.0",
            Patient = AnyPatient(),
            Details = new() { Name = $"Pilot {dice.Next(100)}", BirthDate = null },
        };

    private LineChanged Line(ScriptedInstrument at) =>
        new()
        {
            At = UtcTime.From(at.Now),
            Serial = at.Serial,
            PortName = "memory:1",
            State = (LineState)dice.Next(1, 4),
            Reason = "",
        };

    private EntryId NewId() => new(++drawn);

    private Eye AnyEye() => (Eye)dice.Next(1, 3);

    private PatientId AnyPatient() => new(string.Create(CultureInfo.InvariantCulture, $"Q-{dice.Next(1001, 1007)}"));
}
